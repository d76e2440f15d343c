import { Allow, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { skillLoader } from '@ribband/crew';
import { Database, LocalDate, refusable } from '@ribband/platform';
import { rosterTaskLoader } from '@ribband/roster';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Mutation, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { PlanModel } from '../plans/plan.types.js';
import { Plans } from '../plans/plans.service.js';
import { SecondVersions } from './second-versions.service.js';
import {
  GoWithoutPayload,
  PostWeekPayload,
  ProposedTurnout,
  ProposedWork,
  SecondVersionModel,
  WeekProposal,
} from './week.types.js';
import type { TurnoutProposal, WorkProposal } from './week-book.js';
import { type Week, Weeks } from './weeks.service.js';

const GoWithoutResult = refusable('GoWithoutResult', () => GoWithoutPayload);
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
  ): Promise<WeekProposal> {
    const week = await this.weeks.propose(caller, weekOf);
    return Object.assign(new WeekProposal(), {
      told: week.told,
      weekOf: week.weekOf,
      planId: week.told?.entity.id ?? null,
      posted: week.isPosted,
      turnouts: await Promise.all(week.turnouts.map((one) => this.turnout(context, week, one))),
    });
  }

  @Allow('coordinator', 'director')
  @Mutation(() => PostWeekResult, {
    description: 'Tells the people of a week: its seats become places. Posting twice changes nothing.',
  })
  async postWeek(
    @CurrentCaller() caller: Caller,
    @Args('weekOf', { type: () => LocalDate, description: 'Any day of the week.' }) weekOf: string,
    @Args('planId', { type: () => ID, description: 'The plan that was looked at.' }) planId: string,
  ): Promise<PostWeekPayload> {
    return Object.assign(new PostWeekPayload(), await this.weeks.post(caller, weekOf, planId));
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

  private async turnout(context: RequestContext, week: Week, one: TurnoutProposal): Promise<ProposedTurnout> {
    const named = (id: string) => week.names.get(id) ?? { volunteerId: id, name: '' };
    return {
      turnout: one.turnout,
      work: await Promise.all(one.work.slice(0, 100).map((work) => this.work(context, week, work))),
      unplaced: one.unplacedIds.slice(0, 100).map(named),
      notices: one.notices.slice(0, 100),
      odds: [...one.odds].slice(0, 100).map(([taskId, words]) => ({ taskId, words })),
    };
  }

  private async work(context: RequestContext, week: Week, work: WorkProposal): Promise<ProposedWork> {
    const { read } = this.database;
    const skills = skillLoader(context, read);
    return {
      task: await rosterTaskLoader(context, read).load(work.taskId),
      startsAt: work.startsAt,
      endsAt: work.endsAt,
      crew: await Promise.all(
        work.crew.map(async ({ volunteerId, skillId, why }) => ({
          hand: week.names.get(volunteerId) ?? { volunteerId, name: '' },
          skill: skillId === null ? null : await skills.load(skillId),
          why,
        })),
      ),
      gaps: work.gaps,
      cautions: (week.cautions.get(work.taskId) ?? []).slice(0, 50),
    };
  }
}
