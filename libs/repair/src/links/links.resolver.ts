import { Allow, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { Database, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import {
  Args,
  Context,
  Field,
  ID,
  InputType,
  Int,
  Mutation,
  ObjectType,
  Parent,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { boardLoader, forgetRead } from '../repair.loaders.js';
import { Task } from '../tasks/task.entity.js';
import { YardBoard, type Board } from '../tasks/yard-board.js';
import { linkSentence } from './link-sentence.js';
import { LagKindEnum, RelationEnum, type LagKind, type Relation } from './link-words.js';
import { Link } from './link.entity.js';
import { Links } from './links.service.js';

@InputType({ description: 'One task waits for another.' })
export class LinkInput {
  @Field(() => ID, { description: 'Id of the task that is waited for.' })
  beforeId!: string;

  @Field(() => ID, { description: 'Id of the task that waits.' })
  afterId!: string;

  @Field(() => RelationEnum, {
    description: 'Which end waits for which.',
    defaultValue: RelationEnum.FINISH_TO_START,
  })
  relation!: Relation;

  @Field(() => Int, {
    description: 'Minutes between the two ends; below zero they may overlap.',
    defaultValue: 0,
  })
  lagMinutes!: number;

  @Field(() => LagKindEnum, { description: 'Which minutes count.', defaultValue: LagKindEnum.WORKING })
  lagKind!: LagKind;
}

@ObjectType({ description: 'The link as the change left it.' })
export class LinkPayload {
  @Field(() => Link, { description: 'The link.' })
  link!: Link;
}

@ObjectType({ description: 'A link is gone.' })
export class RemoveLinkPayload {
  @Field(() => ID, { description: 'Id of the link that is gone.' })
  removedId!: string;
}

const AddLinkResult = refusable('AddLinkResult', () => LinkPayload);
const EditLinkResult = refusable('EditLinkResult', () => LinkPayload);
const RemoveLinkResult = refusable('RemoveLinkResult', () => RemoveLinkPayload);

const payload = (link: Link): LinkPayload => Object.assign(new LinkPayload(), { link });

@Resolver(() => Link)
export class LinksResolver {
  constructor(
    @Inject(Links) private readonly links: Links,
    @Inject(Database) private readonly database: Database,
    @Inject(YardBoard) private readonly board: YardBoard,
  ) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => AddLinkResult, { description: 'Lets one task wait for another.' })
  async addLink(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'The link.' }) input: LinkInput,
    @Context() context: RequestContext,
  ): Promise<LinkPayload> {
    forgetRead(context);
    return payload(await this.links.add(caller, { ...input }));
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => EditLinkResult, { description: 'Changes how two tasks are tied; what is left out stays.' })
  async editLink(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which link.' }) id: string,
    @Args('version', { type: () => Int, description: 'Its version that was read.' }) version: number,
    @Args('lagMinutes', { type: () => Int, nullable: true, description: 'Minutes between the two ends.' })
    lagMinutes: number | null | undefined,
    @Args('lagKind', { type: () => LagKindEnum, nullable: true, description: 'Which minutes count.' })
    lagKind: LagKind | null | undefined,
    @Args('relation', { type: () => RelationEnum, nullable: true, description: 'Which end waits for which.' })
    relation: Relation | null | undefined,
    @Context() context: RequestContext,
  ): Promise<LinkPayload> {
    forgetRead(context);
    const changes = {
      lagMinutes: lagMinutes ?? undefined,
      lagKind: lagKind ?? undefined,
      relation: relation ?? undefined,
    };
    return payload(await this.links.edit(caller, id, version, changes));
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => RemoveLinkResult, { description: 'Takes a link away.' })
  async removeLink(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which link.' }) id: string,
    @Args('version', { type: () => Int, description: 'Its version that was read.' }) version: number,
    @Context() context: RequestContext,
  ): Promise<RemoveLinkPayload> {
    forgetRead(context);
    const { id: removedId } = await this.links.remove(caller, id, version);
    return Object.assign(new RemoveLinkPayload(), { removedId });
  }

  @ResolveField(() => Task, { description: 'The task that is waited for.' })
  async before(@Parent() link: Link, @Context() context: RequestContext): Promise<Task> {
    return taskOn(await this.boardOf(link, context), link.beforeId);
  }

  @ResolveField(() => Task, { description: 'The task that waits.' })
  async after(@Parent() link: Link, @Context() context: RequestContext): Promise<Task> {
    return taskOn(await this.boardOf(link, context), link.afterId);
  }

  @ResolveField(() => String, {
    description: 'What it says to the task that waits, such as "two turnouts after “Punch stubs” is done".',
  })
  async sentence(@Parent() link: Link, @Context() context: RequestContext): Promise<string> {
    const board = await this.boardOf(link, context);
    return linkSentence(link, taskOn(board, link.beforeId).title, board.turnoutMinutes);
  }

  private boardOf(link: Link, context: RequestContext): Promise<Board> {
    return boardLoader(context, this.database.read, this.board).load(link.organisationId);
  }
}

/** The links of a task, shown from either side. */
@Resolver(() => Task)
export class TaskLinksResolver {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardBoard) private readonly board: YardBoard,
  ) {}

  @ResolveField(() => [Link], { description: 'What it waits for; at most 200.' })
  async follows(@Parent() task: Task, @Context() context: RequestContext): Promise<Link[]> {
    const board = await boardLoader(context, this.database.read, this.board).load(task.organisationId);
    return (board.linksInto.get(task.id) ?? []).slice(0, mostLinks);
  }

  @ResolveField(() => [Link], { description: 'What waits for it; at most 200.' })
  async leadsTo(@Parent() task: Task, @Context() context: RequestContext): Promise<Link[]> {
    const board = await boardLoader(context, this.database.read, this.board).load(task.organisationId);
    return (board.linksFrom.get(task.id) ?? []).slice(0, mostLinks);
  }
}

const mostLinks = 200;

function taskOn(board: Board, id: string): Task {
  const task = board.task.get(id);
  if (!task) throw new Error(`A link names ${id}, which is not on the board`);
  return task;
}
