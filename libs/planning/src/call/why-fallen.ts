import type { Plan, Problem } from '@ribband/engine';
import type { CalledWork, CallInput } from './call-shapes.js';
import { whoIsAble } from './who-is-able.js';

/** Posted work that is not done at the called turnout, and the first reason why. */
export interface Fallen {
  task: number;
  why:
    /** Too few of those present may fill one of its seats. */
    | { kind: 'seat'; skill: number; have: number; need: number }
    /** Fewer may be on it than it takes. */
    | { kind: 'crew'; have: number; need: number }
    /** It must wait whoever is there. */
    | { kind: 'closed' }
    /** Other work has to come first and does not get so far. */
    | { kind: 'waits'; task: number }
    /** Who could do it does something else that she waits for more. */
    | { kind: 'elsewhere'; tasks: number[] }
    /** No more of the hull may be open. */
    | { kind: 'opening'; limit: number }
    | { kind: 'tool'; tool: number }
    /** It is done, or nothing is left of it. */
    | { kind: 'done' }
    /** The plan has it later, and nothing in particular keeps it. */
    | { kind: 'later' };
}

type Called = Omit<CallInput, 'problem'> & { problem: Problem; plan: Plan; work: readonly CalledWork[] };

/** Why a posted task is left out, the people first: that is what changed since it was posted. */
export function whyFallen(called: Called, task: number): Fallen {
  return { task, why: reason(called, task) };
}

function reason({ problem, plan, turnout, present, closed = [], work }: Called, task: number): Fallen['why'] {
  const record = problem.tasks[task];
  const end = problem.turnouts[turnout]?.end ?? 0;
  if (!record || record.progress.kind === 'done') return { kind: 'done' };
  if (closed.includes(task)) return { kind: 'closed' };
  for (const [seat, { skill, count }] of record.seats.entries()) {
    const have = whoIsAble(problem, present, task, seat).length;
    if (have < count) return { kind: 'seat', skill, have, need: count };
  }
  const have = whoIsAble(problem, present, task, null).length;
  if (have < record.crew.min) return { kind: 'crew', have, need: record.crew.min };
  const first = problem.links.find(
    (link) =>
      link.after === task &&
      !link.relation.endsWith('to-finish') &&
      problem.tasks[link.before]?.progress.kind !== 'done' &&
      ((link.relation === 'start-to-start' ? plan.tasks[link.before]?.start : plan.tasks[link.before]?.end) ??
        0) >= end,
  );
  if (first) return { kind: 'waits', task: first.before };
  const held = plan.tasks[task]?.heldBy;
  if (held?.kind === 'opening') return { kind: 'opening', limit: held.limit };
  if (held?.kind === 'tool') return { kind: 'tool', tool: held.tool };
  const able = new Set([
    ...record.seats.flatMap((_, seat) => whoIsAble(problem, present, task, seat)),
    ...(record.seats.length === 0 ? whoIsAble(problem, present, task, null) : []),
  ]);
  const tasks = work.filter(({ crew }) => crew.some(({ person }) => able.has(person))).map((one) => one.task);
  return tasks.length > 0 ? { kind: 'elsewhere', tasks } : { kind: 'later' };
}
