import { Allow, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { type CrewHand, type NamedHand, skillLoader } from '@ribband/crew';
import { Database, refusable } from '@ribband/platform';
import type { TurnoutKind } from '@ribband/roster';
import { Inject } from '@nestjs/common';
import { Args, Context, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { type ProposedWatchPlace, WatchProposals } from './watch-proposals.service.js';
import {
  PostWatchesPayload,
  ProposedWatchModel,
  WatchHandInput,
  type WatchPlaceModel,
} from './watches.types.js';

const PostWatchesResult = refusable('PostWatchesResult', () => PostWatchesPayload);
const PostAllHandsResult = refusable('PostAllHandsResult', () => PostWatchesPayload);

@Resolver(() => ProposedWatchModel)
export class WatchProposalsResolver {
  constructor(
    @Inject(WatchProposals) private readonly proposals: WatchProposals,
    @Inject(Database) private readonly database: Database,
  ) {}

  @Allow('director', 'coordinator')
  @Query(() => [ProposedWatchModel], {
    description: 'Who would keep the watches that have not begun, in order of time; at most 168.',
  })
  async watchProposal(
    @CurrentCaller() caller: Caller,
    @Context() context: RequestContext,
    @Args('mostEach', { type: () => Int, description: 'Nobody is asked to more watches: 1 to 12.' })
    mostEach: number,
  ): Promise<ProposedWatchModel[]> {
    return this.proposed(caller, context, 'watch', mostEach);
  }

  @Allow('director', 'coordinator')
  @Query(() => [ProposedWatchModel], {
    description: 'Who would have which role on the all-hands days that have not begun; at most 168.',
  })
  async allHandsProposal(
    @CurrentCaller() caller: Caller,
    @Context() context: RequestContext,
  ): Promise<ProposedWatchModel[]> {
    return this.proposed(caller, context, 'all-hands');
  }

  @Allow('director', 'coordinator')
  @Mutation(() => PostWatchesResult, {
    description:
      'Asks people to places on watches. Whoever has said yes stays; places not named stay as they are.',
  })
  async postWatches(
    @CurrentCaller() caller: Caller,
    @Args('places', { type: () => [WatchHandInput], description: 'Who is asked where.' })
    places: WatchHandInput[],
  ): Promise<PostWatchesPayload> {
    return this.posted(caller, 'watch', places);
  }

  @Allow('director', 'coordinator')
  @Mutation(() => PostAllHandsResult, {
    description:
      'Asks people to roles on all-hands days. Whoever has said yes stays; places not named stay as they are.',
  })
  async postAllHands(
    @CurrentCaller() caller: Caller,
    @Args('places', { type: () => [WatchHandInput], description: 'Who is asked where.' })
    places: WatchHandInput[],
  ): Promise<PostWatchesPayload> {
    return this.posted(caller, 'all-hands', places);
  }

  private async proposed(
    caller: Caller,
    context: RequestContext,
    kind: TurnoutKind,
    mostEach?: number,
  ): Promise<ProposedWatchModel[]> {
    const watches = await this.proposals.propose(caller, mostEach, kind);
    return Promise.all(
      watches.map(async ({ turnout, notices, places }) => ({
        ...{ turnout, notices },
        places: await Promise.all(places.map((one) => this.placeOf(context, one))),
      })),
    );
  }

  private async posted(
    caller: Caller,
    kind: TurnoutKind,
    places: readonly WatchHandInput[],
  ): Promise<PostWatchesPayload> {
    const wanted = places.map(({ placeId, volunteerId = null }) => ({ placeId, volunteerId }));
    return Object.assign(new PostWatchesPayload(), await this.proposals.post(caller, wanted, kind));
  }

  private async placeOf(
    context: RequestContext,
    { place, hand, why, could }: ProposedWatchPlace,
  ): Promise<WatchPlaceModel> {
    const { id, skillId, level, role, state } = place;
    return {
      placeId: id,
      skill: skillId === null ? null : await skillLoader(context, this.database.read).load(skillId),
      ...{ level, role, why, taken: state === 'taken' },
      hand: hand && named(hand),
      could: could.filter((one) => one !== hand).map(named),
    };
  }
}

const named = ({ id, name }: CrewHand): NamedHand => ({ volunteerId: id, name });
