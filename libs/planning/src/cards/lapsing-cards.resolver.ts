import { Allow, type Caller, CurrentCaller } from '@ribband/access';
import { Inject } from '@nestjs/common';
import { Args, Int, Query, Resolver } from '@nestjs/graphql';
import { LapsingCards } from './lapsing-cards.service.js';
import { LapsingCard } from './lapsing-cards.types.js';

@Resolver()
export class LapsingCardsResolver {
  constructor(@Inject(LapsingCards) private readonly cards: LapsingCards) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => [LapsingCard], {
    description:
      'Cards that lapse within so many days or have lapsed and were not renewed, the earliest first; at most 200.',
  })
  lapsingCards(
    @CurrentCaller() caller: Caller,
    @Args('withinDays', { type: () => Int, defaultValue: 60, description: 'From today on; 0 to 730.' })
    withinDays: number,
  ): Promise<LapsingCard[]> {
    return this.cards.within(caller, withinDays);
  }
}
