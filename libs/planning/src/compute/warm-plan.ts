import type { Drawing, Plan, Problem, Segment } from '@ribband/engine';
import type { PlanInput } from '../plans/plan-input.js';

/** A plan with the problem that it solves. */
export interface SolvedPlan {
  input: Pick<PlanInput, 'epochAt' | 'problem'>;
  plan: Plan;
}

/**
 * The plan in force in the words of a newer problem: tasks, people and turnouts are found again by id, and what is
 * gone falls out. New tasks stand at its end. The search starts from its order and keeps its crews where that costs
 * nothing.
 */
export function warmPlan(old: SolvedPlan, problem: Problem, epochAt: number): Plan {
  const shift = (old.input.epochAt - epochAt) / 60_000;
  const from = old.input.problem;
  const tasks = renumbered(from.tasks, problem.tasks);
  const people = renumbered(from.people, problem.people);
  const turnouts = renumbered(from.turnouts, problem.turnouts);
  const oldTimes = new Map(
    old.plan.tasks.flatMap((times, i) => {
      const task = tasks[i];
      return task === undefined ? [] : [[task, times] as const];
    }),
  );
  const ready = old.plan.ready + shift;
  return {
    format: 'ribband-plan/1',
    ready,
    slot: null,
    segments: old.plan.segments.flatMap((segment): Segment[] => {
      const task = tasks[segment.task];
      const turnout = segment.turnout === null ? null : turnouts[segment.turnout];
      if (task === undefined || turnout === undefined) return [];
      const crew = segment.crew.flatMap(({ person, seat }) => {
        const index = people[person];
        return index === undefined ? [] : [{ person: index, seat }];
      });
      return [{ task, turnout, start: segment.start + shift, end: segment.end + shift, crew }];
    }),
    tasks: problem.tasks.map((_task, i) => {
      const times = oldTimes.get(i);
      return {
        start: times ? times.start + shift : ready,
        end: times ? times.end + shift : ready,
        float: 0,
        heldBy: { kind: 'nothing' },
      };
    }),
    launchChain: [],
    bound: { ready, kind: 'critical path', bottleneck: null },
    proved: false,
    postingsChanged: 0,
    schedules: 0,
    ...(old.plan.drawn ? { drawn: redrawn(old.plan.drawn, tasks, problem.tasks.length) } : {}),
  };
}

/** The order and the crewing with the tasks' new numbers; a new task comes last, crewed as usual. */
function redrawn(old: Drawing, tasks: (number | undefined)[], count: number): Drawing {
  const crewing = new Array<number>(count).fill(0);
  old.crewing.forEach((choice, i) => {
    const task = tasks[i];
    if (task !== undefined) crewing[task] = choice;
  });
  const order = old.order.flatMap((i) => tasks[i] ?? []);
  return { order, crewing, held: [] };
}

/** For each of the old list its index in the new one, or undefined. */
function renumbered(old: readonly { id: string }[], now: readonly { id: string }[]): (number | undefined)[] {
  const index = new Map(now.map(({ id }, i) => [id, i]));
  return old.map(({ id }) => index.get(id));
}
