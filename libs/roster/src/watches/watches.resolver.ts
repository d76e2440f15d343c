import { Allow, type Caller, CurrentCaller } from '@ribband/access';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Mutation, Query, Resolver } from '@nestjs/graphql';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { Watches } from './watches.service.js';
import { WatchesInput, WatchesPayload } from './watches.types.js';

const LayOnWatchesResult = refusable('LayOnWatchesResult', () => WatchesPayload);
const CallOffWatchesResult = refusable('CallOffWatchesResult', () => WatchesPayload);

@Resolver()
export class WatchesResolver {
  constructor(@Inject(Watches) private readonly book: Watches) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => [TurnoutEntity], { description: 'Watches that are not over, in order of time; at most 168.' })
  watches(@CurrentCaller() caller: Caller): Promise<TurnoutEntity[]> {
    return this.book.toCome(caller.organisationId);
  }

  @Allow('director', 'coordinator')
  @Mutation(() => LayOnWatchesResult, {
    description: 'Lays watches on, one after the other round the clock, each with its places open.',
  })
  async layOnWatches(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'From when, for how long, how many people.' }) input: WatchesInput,
  ): Promise<WatchesPayload> {
    return Object.assign(new WatchesPayload(), { watches: await this.book.layOn(caller, input) });
  }

  @Allow('director', 'coordinator')
  @Mutation(() => CallOffWatchesResult, { description: 'Calls all watches off that have not begun.' })
  async callOffWatches(
    @CurrentCaller() caller: Caller,
    @Args('reason', { type: () => String, description: 'Why; people will see it.' }) reason: string,
  ): Promise<WatchesPayload> {
    return Object.assign(new WatchesPayload(), { watches: await this.book.callOffAll(caller, reason) });
  }
}
