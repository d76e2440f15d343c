import { Allow, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { loader, NamedHand, volunteerLoader, YardDay } from '@ribband/crew';
import { Database, LocalDate, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import {
  Args,
  Context,
  Field,
  ID,
  InputType,
  Mutation,
  ObjectType,
  Parent,
  Query,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { seatsLoader } from '../repair.loaders.js';
import { Task } from '../tasks/task.entity.js';
import { authorityOf } from './authority.js';
import { DelegationEntity, type DelegationScope, DelegationScopeEnum } from './delegation.entity.js';
import { Delegations } from './delegations.service.js';

@InputType({ description: 'The shipwright’s say-so for somebody else.' })
export class DelegationInput {
  @Field(() => ID, { description: 'To whom.' })
  volunteerId!: string;

  @Field(() => DelegationScopeEnum, { description: 'Over which work.' })
  scope!: DelegationScope;

  @Field(() => [String], {
    description: 'Kinds, positions, ids of skills or of tasks, as the scope says; at most 200.',
  })
  names!: string[];

  @Field(() => LocalDate, { description: 'The first day.' })
  from!: string;

  @Field(() => LocalDate, { description: 'The last day; at most 92 days after the first.' })
  until!: string;

  @Field(() => String, { description: 'Why, 1 to 300 characters.' })
  reason!: string;
}

@ObjectType({ description: 'The delegation as it is now.' })
export class DelegationPayload {
  @Field(() => DelegationEntity, { description: 'The delegation.' })
  delegation!: DelegationEntity;
}

const GiveSaySoResult = refusable('GiveSaySoResult', () => DelegationPayload);
const RevokeSaySoResult = refusable('RevokeSaySoResult', () => DelegationPayload);

@Resolver(() => DelegationEntity)
export class DelegationsResolver {
  constructor(
    @Inject(Delegations) private readonly book: Delegations,
    @Inject(Database) private readonly database: Database,
  ) {}

  @Allow('shipwright', 'director', 'coordinator')
  @Query(() => [DelegationEntity], {
    description: 'To whom the say-so was given, newest first; at most 100.',
  })
  delegations(@CurrentCaller() caller: Caller): Promise<DelegationEntity[]> {
    return this.book.list(caller);
  }

  @Allow('shipwright', 'director')
  @Mutation(() => GiveSaySoResult, {
    description: 'Gives the shipwright’s say-so to somebody, over some work, until a day.',
  })
  async giveSaySo(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'To whom, over what, until when.' }) input: DelegationInput,
  ): Promise<DelegationPayload> {
    return Object.assign(new DelegationPayload(), { delegation: await this.book.give(caller, input) });
  }

  @Allow('shipwright', 'director')
  @Mutation(() => RevokeSaySoResult, { description: 'Takes it back; what was said meanwhile stands.' })
  async revokeSaySo(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which one.' }) id: string,
  ): Promise<DelegationPayload> {
    return Object.assign(new DelegationPayload(), { delegation: await this.book.revoke(caller, id) });
  }

  @ResolveField(() => NamedHand, { description: 'To whom.' })
  async hand(@Parent() row: DelegationEntity, @Context() context: RequestContext): Promise<NamedHand> {
    const { id, name } = await volunteerLoader(context, this.database.read).load(row.volunteerId);
    return { volunteerId: id, name };
  }
}

@Resolver(() => Task)
export class TaskAuthorityResolver {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  @ResolveField(() => Boolean, { description: 'Whether you may pass it or send it back.' })
  async maySaySo(
    @Parent() task: Task,
    @CurrentCaller() caller: Caller,
    @Context() context: RequestContext,
  ): Promise<boolean> {
    const { read } = this.database;
    const mine = loader(context, 'repair.authority', (ids: readonly string[]) =>
      Promise.all(ids.map(async (id) => authorityOf(read, caller, await this.yardDay.today(id)))),
    );
    const authority = await mine.load(caller.organisationId);
    const seats = await seatsLoader(context, read).load(task.id);
    return (
      authority(
        task,
        seats.map((seat) => seat.skillId),
      ) !== null
    );
  }
}
