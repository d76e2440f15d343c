import { Allow, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { skillLoader } from '@ribband/crew';
import { Database, LocalDate, refusable } from '@ribband/platform';
import { rosterTaskLoader } from '@ribband/roster';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Mutation, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { PlanModel, ProposedHand } from '../plans/plan.types.js';
import { Plans } from '../plans/plans.service.js';
import { SecondVersions } from './second-versions.service.js';
import {
  GoWithoutPayload,
  KeepWeekDraftPayload,
  PlacedHandInput,
  PostWeekPayload,
  ProposedPlace,
  ProposedTurnout,
  ProposedWork,
  PutInput,
  SecondVersionModel,
  TriedWeekModel,
  WeekProposal,
} from './week.types.js';
import type { TurnoutProposal, WorkProposal } from './week-book.js';
import type { Week } from './week-told.js';
import { Weeks } from './weeks.service.js';

const GoWithoutResult = refusable('GoWithoutResult', () => GoWithoutPayload);
const KeepWeekDraftResult = refusable('KeepWeekDraftResult', () => KeepWeekDraftPayload);
const PostWeekResult = refusable('PostWeekResult', () => PostWeekPayload);

@Resolver(() => WeekProposal)
export class WeekResolver {
  constructor(
    @Inject(Weeks) private readonly weeks: Weeks,
    @Inject(Plans) private readonly plans: Plans,
    @Inject(SecondVersions) private readonly seconds: SecondVersions,
    @Inject(Database) private readonly database: Database,
  ) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => WeekProposal, { description: 'A week as the plan in force proposes it.' })
  async weekProposal(
    @CurrentCaller() caller: Caller,
    @Context() context: RequestContext,
    @Args('weekOf', {
      type: () => LocalDate,
      nullable: true,
      description: 'Any day of the week; the week of the next turnout when left out.',
    })
    weekOf: string | null = null,
    @Args('fixed', {
      type: () => [PlacedHandInput],
      nullable: true,
      description: 'Places to keep: those marked as fixed. When left out: the draft, or what is posted.',
    })
    fixed: PlacedHandInput[] | null = null,
  ): Promise<WeekProposal> {
    return this.told(context, await this.weeks.propose(caller, weekOf, fixed));
  }

  @Allow('coordinator', 'director')
  @Query(() => TriedWeekModel, {
    description: 'A week with these people on its places and one more put where you point. Nothing is kept.',
  })
  async triedWeek(
    @CurrentCaller() caller: Caller,
    @Context() context: RequestContext,
    @Args('weekOf', { type: () => LocalDate, description: 'Any day of the week.' }) weekOf: string,
    @Args('planId', { type: () => ID, description: 'The plan whose places these are.' }) planId: string,
    @Args('places', { type: () => [PlacedHandInput], description: 'Who is on which place; others are open.' })
    places: PlacedHandInput[],
    @Args('put', { type: () => PutInput, nullable: true, description: 'Whom to put where.' })
    put: PutInput | null = null,
  ): Promise<TriedWeekModel> {
    const change = put && { key: put.key, volunteerId: put.volunteerId ?? null };
    const tried = await this.weeks.tryOut(caller, weekOf, planId, places, change);
    return { ...tried, week: await this.told(context, tried.week) };
  }

  @Allow('coordinator', 'director')
  @Mutation(() => KeepWeekDraftResult, { description: 'Keeps a week as it is put together so far.' })
  async keepWeekDraft(
    @CurrentCaller() caller: Caller,
    @Args('weekOf', { type: () => LocalDate, description: 'Any day of the week.' }) weekOf: string,
    @Args('planId', { type: () => ID, description: 'The plan whose places these are.' }) planId: string,
    @Args('places', { type: () => [PlacedHandInput], description: 'Who is on which place; others are open.' })
    places: PlacedHandInput[],
  ): Promise<KeepWeekDraftPayload> {
    const draft = await this.weeks.keepDraft(caller, weekOf, planId, places);
    return Object.assign(new KeepWeekDraftPayload(), { draft });
  }

  @Allow('coordinator', 'director')
  @Mutation(() => PostWeekResult, {
    description: 'Tells the people of a week: its seats become places. Posting twice changes nothing.',
  })
  async postWeek(
    @CurrentCaller() caller: Caller,
    @Args('weekOf', { type: () => LocalDate, description: 'Any day of the week.' }) weekOf: string,
    @Args('planId', { type: () => ID, description: 'The plan that was looked at.' }) planId: string,
    @Args('places', {
      type: () => [PlacedHandInput],
      nullable: true,
      description: 'Who is on which place; the draft, or the week as it is proposed, when left out.',
    })
    places: PlacedHandInput[] | null = null,
  ): Promise<PostWeekPayload> {
    return Object.assign(new PostWeekPayload(), await this.weeks.post(caller, weekOf, planId, places));
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => SecondVersionModel, {
    nullable: true,
    description: 'A posted turnout without somebody, and whom to ring; null where nobody would be missed.',
  })
  secondVersion(
    @CurrentCaller() caller: Caller,
    @Args('turnoutId', { type: () => ID, description: 'Which turnout.' }) turnoutId: string,
    @Args('volunteerId', {
      type: () => ID,
      nullable: true,
      description: 'Without whom; the person whose absence would lose most work when left out.',
    })
    volunteerId: string | null = null,
  ): Promise<SecondVersionModel | null> {
    return this.seconds.of(caller, turnoutId, volunteerId);
  }

  @Allow('coordinator', 'director')
  @Mutation(() => GoWithoutResult, {
    description:
      'Somebody can’t come: their places at a turnout are left, those who step in are asked and told. It counts against nobody.',
  })
  async goWithout(
    @CurrentCaller() caller: Caller,
    @Args('turnoutId', { type: () => ID, description: 'Which turnout.' }) turnoutId: string,
    @Args('volunteerId', { type: () => ID, description: 'Who can’t come.' }) volunteerId: string,
  ): Promise<GoWithoutPayload> {
    return Object.assign(new GoWithoutPayload(), {
      turnout: await this.seconds.goWithout(caller, turnoutId, volunteerId),
    });
  }

  @ResolveField(() => PlanModel, { nullable: true, description: 'The plan in force; null before the first.' })
  plan(@Parent() week: WeekProposal): Promise<PlanModel> | null {
    return week.told ? this.plans.model(week.told) : null;
  }

  private async told(context: RequestContext, week: Week): Promise<WeekProposal> {
    const named = (id: string) => week.names.get(id) ?? { volunteerId: id, name: '' };
    return Object.assign(new WeekProposal(), {
      told: week.told,
      weekOf: week.weekOf,
      planId: week.told?.entity.id ?? null,
      posted: week.isPosted,
      draft: week.draft,
      changes: week.changes,
      crew: week.crewIds.slice(0, 500).map(named),
      notices: week.notices,
      turnouts: await Promise.all(week.turnouts.map((one) => this.turnout(context, week, one))),
    });
  }

  private async turnout(context: RequestContext, week: Week, one: TurnoutProposal): Promise<ProposedTurnout> {
    const named = (id: string) => week.names.get(id) ?? { volunteerId: id, name: '' };
    return {
      turnout: one.turnout,
      work: await Promise.all(one.work.slice(0, 100).map((work) => this.work(context, week, work))),
      unplaced: one.unplacedIds.slice(0, 100).map(named),
      swingHands: one.swingIds.slice(0, 100).map(named),
      notices: one.notices.slice(0, 100),
      odds: [...one.odds].slice(0, 100).map(([taskId, words]) => ({ taskId, words })),
    };
  }

  private async work(context: RequestContext, week: Week, work: WorkProposal): Promise<ProposedWork> {
    const { read } = this.database;
    const skills = skillLoader(context, read);
    const named = (id: string) => week.names.get(id) ?? { volunteerId: id, name: '' };
    const places = await Promise.all(
      work.places.slice(0, 100).map(async (place): Promise<ProposedPlace> => ({
        ...place,
        skill: place.skillId === null ? null : await skills.load(place.skillId),
        hand: place.volunteerId === null ? null : named(place.volunteerId),
        fixed: place.isFixed,
        beside: place.besideId === null ? null : named(place.besideId),
      })),
    );
    return {
      task: await rosterTaskLoader(context, read).load(work.taskId),
      startsAt: work.startsAt,
      endsAt: work.endsAt,
      places,
      crew: onceEach(places),
      gaps: work.gaps,
      cautions: (week.cautions.get(work.taskId) ?? []).slice(0, 50),
    };
  }
}

/** Who is on a piece of work: somebody whose crew changes around them is named once. */
function onceEach(places: readonly ProposedPlace[]): ProposedHand[] {
  const crew = new Map<string, ProposedHand>();
  for (const { hand, skill, why } of places) {
    const key = `${hand?.volunteerId ?? ''} ${skill?.id ?? ''}`;
    if (hand && !crew.has(key)) crew.set(key, { hand, skill, why: why ?? '' });
  }
  return [...crew.values()];
}
