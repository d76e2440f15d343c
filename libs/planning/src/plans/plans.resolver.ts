import { Allow, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { skillLoader, volunteerLoader } from '@ribband/crew';
import { type ConnectionOf, Database, LocalDate, PageArgs, pageOf, refuse } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { rosterTaskLoader, turnoutLoader } from '@ribband/roster';
import { Inject } from '@nestjs/common';
import { Args, Context, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { daysToSpare } from '../words/plan-sentences.js';
import { holdSentence } from '../words/hold.js';
import { noPlanSentences } from '../words/wishes.js';
import { workAt } from '../week/stretches.js';
import { realSkill } from '../week/roster/seats-of-week.js';
import { whyThere } from '../week/why.js';
import { PlanShelf } from './plan-shelf.service.js';
import {
  Knot,
  PlanModel,
  PlannedTask,
  PlannedTaskConnection,
  PlanSegment,
  ProposedHand,
  Wish,
} from './plan.types.js';
import { plannedTask } from './planned-task.js';
import { Plans } from './plans.service.js';

/** Most segments that one question is answered with. */
const mostSegments = 200;

@Resolver(() => PlanModel)
export class PlansResolver {
  constructor(
    @Inject(Plans) private readonly plans: Plans,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(Database) private readonly database: Database,
  ) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => PlanModel, { nullable: true, description: 'The plan in force; null before the first.' })
  plan(@CurrentCaller() caller: Caller): Promise<PlanModel | null> {
    return this.plans.inForce(caller);
  }

  @ResolveField(() => Boolean, { description: 'Whether nothing has changed since that it depends on.' })
  isNewest(@Parent() plan: PlanModel): Promise<boolean> {
    return this.shelf.isNewest(plan.told);
  }

  @ResolveField(() => [Knot], {
    description:
      'What sets the day on which she is ready, from the first cause to the last task; at most 300.',
  })
  async launchChain(@Parent() { told }: PlanModel, @Context() context: RequestContext): Promise<Knot[]> {
    const sentences = told.told;
    if (!sentences) return [];
    const chain = sentences.plan.launchChain.slice(-300);
    const tasks = await this.tasks(
      context,
      chain.map(({ task }) => told.taskId(task)),
    );
    return chain.flatMap(({ task: index, heldBy }, i): Knot[] => {
      const task = tasks[i];
      const times = sentences.plan.tasks[index];
      if (!task || !times || task.droppedAt !== null) return [];
      return [
        {
          task,
          startsAt: told.instant(times.start),
          endsAt: told.instant(times.end),
          daysToSpare: daysToSpare(sentences, index, told.calendar),
          why: holdSentence(sentences, index, heldBy),
        },
      ];
    });
  }

  @ResolveField(() => [Task], {
    description: 'The longest way through the links if there were people enough, in order; at most 300.',
  })
  async criticalPath(@Parent() { told }: PlanModel, @Context() context: RequestContext): Promise<Task[]> {
    const path = (told.network?.criticalPath ?? []).slice(-300);
    const tasks = await this.tasks(
      context,
      path.map((index) => told.taskId(index)),
    );
    return tasks.filter((task) => task.droppedAt === null);
  }

  @ResolveField(() => PlannedTaskConnection, {
    name: 'tasks',
    description: 'Every task with its time, in order of start.',
  })
  async plannedTasks(
    @Parent() { told }: PlanModel,
    @Args() page: PageArgs,
    @Context() context: RequestContext,
  ): Promise<ConnectionOf<PlannedTask>> {
    const tasks = await this.tasks(
      context,
      told.problem.tasks.map((task) => task.id),
    );
    const planned = tasks.flatMap((task) => plannedTask(told, task) ?? []);
    return pageOf(
      planned.sort((a, b) => a.startsAt - b.startsAt),
      page,
    );
  }

  @ResolveField(() => [PlanSegment], {
    description: 'Who is on what when, at the turnouts of some days; the first 200.',
  })
  async segments(
    @Parent() { told }: PlanModel,
    @Args('from', { type: () => LocalDate, description: 'The first day.' }) from: string,
    @Args('to', { type: () => LocalDate, description: 'The last day.' }) to: string,
    @Context() context: RequestContext,
  ): Promise<PlanSegment[]> {
    if (to < from) refuse('BAD_INPUT', 'The last day is before the first.', { field: 'to' });
    const { problem } = told;
    const inDays = problem.turnouts.flatMap(({ start }, w) => {
      const day = told.days.dayOf(told.instant(start));
      return day >= from && day <= to ? [w] : [];
    });
    const works = workAt(told, new Set(inDays)).slice(0, mostSegments);
    return Promise.all(
      works.map(async (work): Promise<PlanSegment> => {
        const turnoutId = problem.turnouts[work.turnout]?.id ?? '';
        return {
          task: await rosterTaskLoader(context, this.database.read).load(told.taskId(work.task)),
          turnout: await turnoutLoader(context, this.database.read).load(turnoutId),
          startsAt: told.instant(work.start),
          endsAt: told.instant(work.end),
          crew: await Promise.all(
            work.stretches.map((stretch) => {
              const seat =
                stretch.seat === null ? undefined : problem.tasks[stretch.task]?.seats[stretch.seat];
              return this.hand(context, {
                volunteerId: problem.people[stretch.person]?.id ?? '',
                skillId: seat ? realSkill(problem.skills[seat.skill]?.id) : null,
                why: whyThere(told, work, stretch),
              });
            }),
          ),
        };
      }),
    );
  }

  @ResolveField(() => [Wish], {
    description:
      'Where there is no plan: what can’t hold, or smallest sets of wishes that can’t all hold, each tried out. Empty where there is one; at most 100.',
  })
  async noPlan(@Parent() { told }: PlanModel, @Context() context: RequestContext): Promise<Wish[]> {
    const { outcome } = told.entity;
    if (outcome.kind === 'plan') return [];
    const wishes = noPlanSentences(told.problem, outcome, told.input.epochAt, told.days).slice(0, 100);
    return Promise.all(
      wishes.map(async ({ sentence, task }) => ({
        sentence,
        task: task === null ? null : ((await this.tasks(context, [told.taskId(task)]))[0] ?? null),
      })),
    );
  }

  private tasks(context: RequestContext, ids: readonly string[]): Promise<Task[]> {
    const tasks = rosterTaskLoader(context, this.database.read);
    return Promise.all(ids.map((id) => tasks.load(id)));
  }

  private async hand(
    context: RequestContext,
    one: { volunteerId: string; skillId: string | null; why: string },
  ): Promise<ProposedHand> {
    const { id, name } = await volunteerLoader(context, this.database.read).load(one.volunteerId);
    const skill =
      one.skillId === null ? null : await skillLoader(context, this.database.read).load(one.skillId);
    return { hand: { volunteerId: id, name }, skill, why: one.why };
  }
}
