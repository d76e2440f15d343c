import { Allow, AllowSignedIn, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { NamedHand, ruleBook, volunteerLoader, whoSetsAside } from '@ribband/crew';
import { Database, refusable } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Mutation, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { rosterTaskLoader } from '../roster.loaders.js';
import { FoundStopType, OverrideStopInput, StopOverridePayload } from './overrides.types.js';
import { StopOverride } from './stop-override.entity.js';
import { StopOverrides } from './stop-overrides.service.js';

const OverrideStopResult = refusable('OverrideStopResult', () => StopOverridePayload);
const WithdrawStopOverrideResult = refusable('WithdrawStopOverrideResult', () => StopOverridePayload);

const payload = (override: StopOverride): StopOverridePayload =>
  Object.assign(new StopOverridePayload(), { override });

@Resolver(() => StopOverride)
export class OverridesResolver {
  constructor(
    @Inject(StopOverrides) private readonly overrides: StopOverrides,
    @Inject(Database) private readonly database: Database,
  ) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => [StopOverride], {
    description:
      'Stops that were set aside at a turnout, withdrawn ones among them, newest first; at most 200.',
  })
  stopOverrides(
    @CurrentCaller() caller: Caller,
    @Args('turnoutId', { type: () => ID, description: 'Which turnout.' }) turnoutId: string,
  ): Promise<StopOverride[]> {
    return this.overrides.ofTurnout(caller, turnoutId);
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => [FoundStopType], {
    description: 'What stops somebody on a task at a turnout, asked as on the day itself; at most 40.',
  })
  async stopsFor(
    @CurrentCaller() caller: Caller,
    @Args('turnoutId', { type: () => ID, description: 'At which turnout.' }) turnoutId: string,
    @Args('taskId', { type: () => ID, description: 'On which task.' }) taskId: string,
    @Args('volunteerId', { type: () => ID, description: 'Whom.' }) volunteerId: string,
  ): Promise<FoundStopType[]> {
    const stops = await this.overrides.stops(caller, { turnoutId, taskId, volunteerId });
    return stops.map((stop) => ({ ...stop, setAsideBy: whoSetsAside[ruleBook[stop.rule].setAsideBy] }));
  }

  @AllowSignedIn()
  @Mutation(() => OverrideStopResult, {
    description:
      'Sets a stop aside for one person on one task at one turnout, in your name and with your reason. The director may, for most rules the lead shipwright and who has that authority in writing; nobody for themselves.',
  })
  async overrideStop(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'For whom, where, which rule and why.' }) input: OverrideStopInput,
  ): Promise<StopOverridePayload> {
    const { rule, reason, turnoutId, taskId, volunteerId } = input;
    return payload(await this.overrides.grant(caller, { turnoutId, taskId, volunteerId }, rule, reason));
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => WithdrawStopOverrideResult, { description: 'Lets the rule stop them again.' })
  async withdrawStopOverride(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which override.' }) id: string,
  ): Promise<StopOverridePayload> {
    return payload(await this.overrides.withdraw(caller, id));
  }

  @ResolveField(() => Task, { description: 'On which task.' })
  task(@Parent() row: StopOverride, @Context() context: RequestContext): Promise<Task> {
    return rosterTaskLoader(context, this.database.read).load(row.taskId);
  }

  @ResolveField(() => NamedHand, { description: 'For whom.' })
  async hand(@Parent() row: StopOverride, @Context() context: RequestContext): Promise<NamedHand> {
    const { id, name } = await volunteerLoader(context, this.database.read).load(row.volunteerId);
    return { volunteerId: id, name };
  }
}
