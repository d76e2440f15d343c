import { Allow, AllowSignedIn, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { Database, LocalDate, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Int, Mutation, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { PlaceEntity } from '../places/place.entity.js';
import { seenPlaces } from '../places/privacy.js';
import { placesLoader, swingLoader } from '../roster.loaders.js';
import { SwingHandEntity } from '../swing/swing-hand.entity.js';
import { TurnoutRuleEntity } from './turnout-rule.entity.js';
import { TurnoutEntity } from './turnout.entity.js';
import { TurnoutInput, TurnoutPayload, TurnoutRuleInput, TurnoutRulePayload } from './turnout.types.js';
import { Turnouts } from './turnouts.service.js';

const AddTurnoutResult = refusable('AddTurnoutResult', () => TurnoutPayload);
const CancelTurnoutResult = refusable('CancelTurnoutResult', () => TurnoutPayload);
const SetTurnoutRuleResult = refusable('SetTurnoutRuleResult', () => TurnoutRulePayload);

@Resolver(() => TurnoutEntity)
export class TurnoutsResolver {
  constructor(
    @Inject(Turnouts) private readonly turnoutBook: Turnouts,
    @Inject(Database) private readonly database: Database,
  ) {}

  @AllowSignedIn()
  @Query(() => [TurnoutEntity], { description: 'The turnouts of some days in order of time; the first 100.' })
  turnouts(
    @CurrentCaller() caller: Caller,
    @Args('from', { type: () => LocalDate, description: 'The first day.' }) from: string,
    @Args('to', { type: () => LocalDate, description: 'The last day.' }) to: string,
  ): Promise<TurnoutEntity[]> {
    return this.turnoutBook.between(caller, from, to);
  }

  @AllowSignedIn()
  @Query(() => [TurnoutRuleEntity], { description: 'The rules by which turnouts recur; at most 100.' })
  turnoutRules(@CurrentCaller() caller: Caller): Promise<TurnoutRuleEntity[]> {
    return this.turnoutBook.rules(caller);
  }

  @Allow('director', 'coordinator')
  @Mutation(() => AddTurnoutResult, { description: 'Adds one turnout besides the rules.' })
  async addTurnout(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'When.' }) input: TurnoutInput,
  ): Promise<TurnoutPayload> {
    return Object.assign(new TurnoutPayload(), { turnout: await this.turnoutBook.add(caller, input) });
  }

  @Allow('director', 'coordinator')
  @Mutation(() => CancelTurnoutResult, { description: 'Calls a turnout off.' })
  async cancelTurnout(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which turnout.' }) id: string,
    @Args('version', { type: () => Int, description: 'The version that was read.' }) version: number,
    @Args('reason', { type: () => String, description: 'Why; people will see it.' }) reason: string,
  ): Promise<TurnoutPayload> {
    const turnout = await this.turnoutBook.cancel(caller, id, version, reason);
    return Object.assign(new TurnoutPayload(), { turnout });
  }

  @Allow('director', 'coordinator')
  @Mutation(() => SetTurnoutRuleResult, {
    description: 'Adds a rule or changes one. Turnouts to which people are posted stay.',
  })
  async setTurnoutRule(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'The rule.' }) input: TurnoutRuleInput,
  ): Promise<TurnoutRulePayload> {
    const turnoutRule = await this.turnoutBook.setRule(caller, input);
    return Object.assign(new TurnoutRulePayload(), { turnoutRule });
  }

  @ResolveField(() => Boolean, { description: 'Whether it was called off.' })
  cancelled(@Parent() turnout: TurnoutEntity): boolean {
    return turnout.cancelledAt !== null;
  }

  @ResolveField(() => [PlaceEntity], {
    description: 'Its places in order of time; at most 200. Who left one is shown to those who run the yard.',
  })
  async places(
    @Parent() turnout: TurnoutEntity,
    @CurrentCaller() caller: Caller,
    @Context() context: RequestContext,
  ): Promise<PlaceEntity[]> {
    const places = await placesLoader(context, this.database.read).load(turnout.id);
    return seenPlaces(caller, places).slice(0, 200);
  }

  @ResolveField(() => [SwingHandEntity], {
    description:
      'Who was asked to stand by, those who said no among them; at most 100. Volunteers see themselves alone.',
  })
  async swingHands(
    @Parent() turnout: TurnoutEntity,
    @CurrentCaller() caller: Caller,
    @Context() context: RequestContext,
  ): Promise<SwingHandEntity[]> {
    const rows = await swingLoader(context, this.database.read).load(turnout.id);
    return rows
      .filter(({ volunteerId }) => caller.role !== 'volunteer' || volunteerId === caller.volunteerId)
      .slice(0, 100);
  }
}
