import type { Minute, Task } from '@ribband/engine';
import type { ToldPlan } from '../plans/told-plan.js';
import { inSentence } from '../words/hold.js';
import { whoCanSit } from './presence.js';
import type { TurnoutWork } from './stretches.js';

/** A piece of work that waits at a turnout for somebody who is not expected. */
export interface StalledWork {
  task: number;
  /** 'needs 1 sawyer'. */
  gaps: string[];
}

/** How many could join up to the crew that works best. */
export function freeHands(task: Task | undefined, work: TurnoutWork): number {
  if (!task || (task.effort.kind !== 'work' && task.effort.kind !== 'fixed')) return 0;
  return Math.max(0, task.crew.efficient - work.mostHands);
}

/** Work shown at most, the soonest planned first: a list that nobody reads to its end helps nobody. */
const mostStalled = 6;

/**
 * Work that could go on at a turnout, as far as other work is concerned, and does not because nobody who is expected
 * can fill one of its seats.
 */
export function stalledAt(told: ToldPlan, turnout: number): StalledWork[] {
  const { problem, plan } = told;
  const at = problem.turnouts[turnout];
  if (!plan || !at) return [];
  const busy = new Set(
    plan.segments.flatMap((segment) => (segment.turnout === turnout ? [segment.task] : [])),
  );
  const waiting = problem.tasks.flatMap((task, i) =>
    isToDo(told, i, at.start) && !busy.has(i) && task.seats.length > 0 && nothingBefore(told, i, at.start)
      ? [i]
      : [],
  );
  return waiting
    .map((task) => ({ task, gaps: missing(told, task, turnout) }))
    .filter(({ gaps }) => gaps.length > 0)
    .sort((a, b) => (plan.tasks[a.task]?.start ?? 0) - (plan.tasks[b.task]?.start ?? 0))
    .slice(0, mostStalled);
}

/** Seats for which too few are expected: 'needs 1 sawyer'. */
function missing(told: ToldPlan, task: number, turnout: number): string[] {
  const { problem } = told;
  return (problem.tasks[task]?.seats ?? []).flatMap((seat) => {
    const short = seat.count - whoCanSit(problem, task, seat, turnout).length;
    const name = problem.skills[seat.skill]?.name ?? '';
    return short > 0 ? [`needs ${short} for ${inSentence(name)}`] : [];
  });
}

function isToDo(told: ToldPlan, task: number, from: Minute): boolean {
  const record = told.problem.tasks[task];
  const times = told.plan?.tasks[task];
  if (!record || !times || record.progress.kind === 'done') return false;
  if (record.effort.kind !== 'work' && record.effort.kind !== 'fixed') return false;
  return times.end > from && (record.notBefore === null || record.notBefore <= from);
}

/** Whether all that keeps a task from starting is over by then, as the plan has it. */
function nothingBefore(told: ToldPlan, task: number, from: Minute): boolean {
  const { problem, plan, calendar } = told;
  return problem.links.every((link) => {
    if (link.after !== task || link.relation.endsWith('to-finish')) return true;
    const before = plan?.tasks[link.before];
    if (!before) return true;
    const end = link.relation === 'start-to-start' ? before.start : before.end;
    return calendar.lagged(end, link.lag, link.lagKind === 'working') <= from;
  });
}
