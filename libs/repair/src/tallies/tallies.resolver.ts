import { AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { NamedHand, volunteerLoader } from '@ribband/crew';
import { Database, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import {
  Args,
  Context,
  Field,
  ID,
  Int,
  Mutation,
  ObjectType,
  Parent,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { forgetRead, saySosLoader, talliesLoader } from '../repair.loaders.js';
import { Task } from '../tasks/task.entity.js';
import { TaskPayload, taskPayload } from '../tasks/task.payload.js';
import { SaySos } from './say-so.service.js';
import { SaySoType, Tally, TallyInput } from './tally.type.js';
import { Tallies, type EnteredTally } from './tallies.service.js';

@ObjectType({ description: 'A tally was entered.' })
export class TallyPayload {
  @Field(() => Task, { description: 'The task as it stands now.' })
  task!: Task;

  @Field(() => Tally, { description: 'The tally.' })
  tally!: Tally;
}

const EnterTallyResult = refusable('EnterTallyResult', () => TallyPayload);
const CorrectTallyResult = refusable('CorrectTallyResult', () => TallyPayload);
const PassTaskResult = refusable('PassTaskResult', () => TaskPayload);
const SendTaskBackResult = refusable('SendTaskBackResult', () => TaskPayload);

const payload = ({ task, tally }: EnteredTally): TallyPayload =>
  Object.assign(new TallyPayload(), { task, tally: { ...tally, correctedById: null } });

@Resolver(() => Tally)
export class TalliesResolver {
  constructor(
    @Inject(Tallies) private readonly tallies: Tallies,
    @Inject(SaySos) private readonly saySos: SaySos,
    @Inject(Database) private readonly database: Database,
  ) {}

  @AllowSignedIn()
  @Mutation(() => EnterTallyResult, {
    description: 'Says what got done: staff for anybody, volunteers for themselves.',
  })
  async enterTally(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'What got done.' }) input: TallyInput,
    @Context() context: RequestContext,
  ): Promise<TallyPayload> {
    forgetRead(context);
    const { taskId, minutes, key = null } = input;
    const draft = {
      taskId,
      volunteerId: input.volunteerId ?? null,
      turnoutId: input.turnoutId ?? null,
      on: input.on ?? null,
      count: input.count ?? null,
      minutes,
      finished: input.finished ?? false,
      note: input.note ?? null,
    };
    return payload(await this.tallies.enter(caller, draft, key));
  }

  @AllowSignedIn()
  @Mutation(() => CorrectTallyResult, {
    description: 'Replaces a tally that was wrong; the wrong one stays on record.',
  })
  async correctTally(
    @CurrentCaller() caller: Caller,
    @Args('tallyId', { type: () => ID, description: 'Which one.' }) tallyId: string,
    @Args('count', { type: () => Int, nullable: true, description: 'What the count should have been.' })
    count: number | null | undefined,
    @Args('minutes', { type: () => Int, description: 'What the person-minutes should have been.' })
    minutes: number,
    @Args('reason', { type: () => String, description: 'Why.' }) reason: string,
    @Args('finished', {
      type: () => Boolean,
      nullable: true,
      description: 'Whether it was finished; else as before.',
    })
    finished: boolean | null | undefined,
    @Context() context: RequestContext,
  ): Promise<TallyPayload> {
    forgetRead(context);
    const right = { count: count ?? null, minutes, finished: finished ?? null, reason };
    return payload(await this.tallies.correct(caller, tallyId, right));
  }

  @AllowSignedIn()
  @Mutation(() => PassTaskResult, {
    description:
      'Says that a task is good: the shipwright, whoever may say so in its skill, or to whom it was given.',
  })
  async passTask(
    @CurrentCaller() caller: Caller,
    @Args('taskId', { type: () => ID, description: 'Which one.' }) taskId: string,
    @Args('note', { type: () => String, nullable: true, description: 'A remark.' })
    note: string | null | undefined,
    @Context() context: RequestContext,
  ): Promise<TaskPayload> {
    forgetRead(context);
    return taskPayload(await this.saySos.pass(caller, taskId, note ?? null));
  }

  @AllowSignedIn()
  @Mutation(() => SendTaskBackResult, { description: 'Sends work back: so much of it is to be done again.' })
  async sendTaskBack(
    @CurrentCaller() caller: Caller,
    @Args('taskId', { type: () => ID, description: 'Which one.' }) taskId: string,
    @Args('countBack', { type: () => Int, nullable: true, description: 'Pieces to do again.' })
    countBack: number | null | undefined,
    @Args('reason', { type: () => String, description: 'Why.' }) reason: string,
    @Args('minutesBack', {
      type: () => Int,
      nullable: true,
      description: 'Person-minutes to do again, where nothing is counted.',
    })
    minutesBack: number | null | undefined,
    @Context() context: RequestContext,
  ): Promise<TaskPayload> {
    forgetRead(context);
    const back = { count: countBack ?? null, minutes: minutesBack ?? null, reason };
    return taskPayload(await this.saySos.sendBack(caller, taskId, back));
  }

  @ResolveField(() => NamedHand, {
    nullable: true,
    description: 'Who did it; null when it was several, and to volunteers when it was somebody else.',
  })
  async hand(
    @CurrentCaller() caller: Caller,
    @Parent() tally: Tally,
    @Context() context: RequestContext,
  ): Promise<NamedHand | null> {
    const { volunteerId } = tally;
    if (volunteerId === null || !isOwnOrStaff(caller, tally)) return null;
    const { name } = await volunteerLoader(context, this.database.read).load(volunteerId);
    return { volunteerId, name };
  }

  @ResolveField(() => String, {
    nullable: true,
    description: 'Who entered it; null to volunteers when it is about somebody else.',
  })
  enteredBy(@CurrentCaller() caller: Caller, @Parent() tally: Tally): string | null {
    return isOwnOrStaff(caller, tally) ? tally.enteredBy : null;
  }
}

const isOwnOrStaff = (caller: Caller, tally: Tally): boolean =>
  caller.role !== 'volunteer' || (tally.volunteerId !== null && tally.volunteerId === caller.volunteerId);

/** What was done on a task and said about it. */
@Resolver(() => Task)
export class TaskRecordResolver {
  constructor(@Inject(Database) private readonly database: Database) {}

  @ResolveField(() => [Tally], { description: 'The newest tallies, newest first; at most 100.' })
  async tallies(@Parent() task: Task, @Context() context: RequestContext): Promise<Tally[]> {
    const rows = await talliesLoader(context, this.database.read).load(task.id);
    const corrections = new Map(rows.map((row) => [row.correctsId, row.id]));
    return rows
      .slice(-100)
      .reverse()
      .map((row) => ({ ...row, correctedById: corrections.get(row.id) ?? null }));
  }

  @ResolveField(() => [SaySoType], { description: 'What was said about it, newest first; at most 100.' })
  async saySos(@Parent() task: Task, @Context() context: RequestContext): Promise<SaySoType[]> {
    const rows = await saySosLoader(context, this.database.read).load(task.id);
    return rows.slice(-100).reverse();
  }
}
