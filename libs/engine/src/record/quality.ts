import { WorkCalendar } from '../calendar.js';
import { network } from '../network.js';
import type { Plan } from '../plan.js';
import type { Minute, Problem, Task } from '../problem.js';

/**
 * The schedule quality points of the US Defense Contract Management Agency (14 points, 2005; that they exist and the
 * shares for logic, leads, lags and finish-to-start were read, the other limits are from memory). They were made for
 * paid crews in offices; here each is a hint with the tasks it names, never a grade. A working day is a turnout of
 * the usual length.
 */
export type QualityKind =
  | 'logic'
  | 'leads'
  | 'lags'
  | 'relations'
  | 'fixed dates'
  | 'high float'
  | 'negative float'
  | 'long tasks'
  | 'invalid dates'
  | 'no crew'
  | 'missed'
  | 'path test'
  | 'path length'
  | 'execution';

export interface QualityPoint {
  kind: QualityKind;
  /** What was counted, and out of how many; an index as so many of 1. */
  found: number;
  of: number;
  /** What the point asks: at most (or at least) this share, or this index. */
  limit: number;
  asks: 'at most' | 'at least';
  holds: boolean;
  /** Tasks that it names; links are named by the task that follows. */
  tasks: number[];
}

/** What the baseline wanted, as far as it has tasks of this problem. */
export interface BaselineWish {
  task: number;
  end: Minute;
}

/** Working days beyond which float, and work, is called long. */
const longDays = 44;
/** Working days by which the path test lengthens a task. */
const testDays = 20;

/** @param baseline null where none is kept: the two points that need one are left out */
export function qualityPoints(
  problem: Problem,
  plan: Plan,
  baseline: readonly BaselineWish[] | null,
): QualityPoint[] {
  const { tasks, links, now } = problem;
  const calendar = new WorkCalendar(problem.turnouts);
  const day = calendar.longest;
  const open = indices(tasks, ({ progress }) => progress.kind !== 'done');
  const works = open.filter((i) => isWork(tasks[i]));
  const slack = calendar.between(plan.ready, problem.aim.gate);
  const length = calendar.between(now, plan.ready);
  const before = new Set(links.map((link) => link.after));
  const after = new Set(links.map((link) => link.before));
  const unlinked = open.filter((i) => !(before.has(i) || isFirst(i)) || !(after.has(i) || isLast(i)));
  const started = (i: number) => tasks[i].progress.kind !== 'waiting';
  // The first thing done needs nothing before it, and the last nothing behind it.
  function isFirst(i: number) {
    return plan.tasks[i].start === Math.min(...plan.tasks.map(({ start }) => start));
  }
  function isLast(i: number) {
    return plan.tasks[i].end === plan.ready;
  }
  const linked = (test: (link: (typeof links)[number]) => boolean) =>
    links.flatMap((link) => (test(link) ? [link.after] : []));
  const points = [
    share('logic', unlinked, open.length, 0.05),
    share(
      'leads',
      linked(({ lag }) => lag < 0),
      links.length,
      0,
    ),
    share(
      'lags',
      linked(({ lag }) => lag > 0),
      links.length,
      0.05,
    ),
    share(
      'relations',
      linked(({ relation }) => relation !== 'finish-to-start'),
      links.length,
      0.1,
    ),
    share(
      'fixed dates',
      [...new Set(problem.posted.flatMap((one) => (one.firm ? [one.task] : [])))],
      open.length,
      0.05,
    ),
    share(
      'high float',
      open.filter((i) => plan.tasks[i].float + Math.max(0, slack) > longDays * day),
      open.length,
      0.05,
    ),
    share(
      'negative float',
      open.filter((i) => plan.tasks[i].float + slack < 0),
      open.length,
      0,
    ),
    share(
      'long tasks',
      works.filter((i) => !started(i) && lasts(i) > longDays * day),
      works.length,
      0.05,
    ),
    share(
      'invalid dates',
      indices(tasks, (task, i) => hasWrongDate(task, plan.tasks[i].end, now)),
      tasks.length,
      0,
    ),
    share(
      'no crew',
      works.filter((i) => tasks[i].crew.max === 0 && tasks[i].tools.length === 0),
      works.length,
      0,
    ),
    pathTest(problem, calendar, testDays * day),
    index('path length', length, slack),
  ];
  return baseline === null ? points : [...points, ...againstBaseline(problem, baseline)];

  function lasts(i: number): number {
    return calendar.between(plan.tasks[i].start, plan.tasks[i].end);
  }
}

function indices(tasks: readonly Task[], test: (task: Task, i: number) => boolean): number[] {
  return tasks.flatMap((task, i) => (test(task, i) ? [i] : []));
}

const isWork = ({ effort }: Task): boolean => effort.kind === 'work' || effort.kind === 'fixed';

/** Done in time to come, or not done though its end has gone by. */
function hasWrongDate({ progress }: Task, end: Minute, now: Minute): boolean {
  if (progress.kind === 'done') return progress.endedAt > now;
  return end < now || (progress.kind === 'under way' && progress.startedAt > now);
}

function share(kind: QualityKind, named: number[], of: number, limit: number): QualityPoint {
  const tasks = [...new Set(named)];
  const holds = named.length <= limit * of;
  return { kind, found: named.length, of, limit, asks: 'at most', holds, tasks };
}

/** (length + slack) / length, at least 0.95. */
function index(kind: QualityKind, length: number, slack: number): QualityPoint {
  const found = length > 0 ? (length + slack) / length : 1;
  return { kind, found, of: 1, limit: 0.95, asks: 'at least', holds: found >= 0.95, tasks: [] };
}

function againstBaseline({ tasks, now }: Problem, baseline: readonly BaselineWish[]): QualityPoint[] {
  const wanted = baseline.filter(({ end }) => end <= now).map(({ task }) => task);
  const missed = wanted.filter((i) => tasks[i].progress.kind !== 'done');
  const done = baseline.filter(({ task }) => tasks[task].progress.kind === 'done').length;
  const found = wanted.length > 0 ? done / wanted.length : 1;
  return [
    share('missed', missed, wanted.length, 0.05),
    {
      kind: 'execution',
      found,
      of: 1,
      limit: 0.95,
      asks: 'at least',
      holds: found >= 0.95,
      tasks: found >= 0.95 ? [] : missed,
    },
  ];
}

/** A task of the longest way through the links is made longer: the end must move by as much, or the links have a hole. */
function pathTest(problem: Problem, calendar: WorkCalendar, more: number): QualityPoint {
  const kind = 'path test';
  const passed = { kind, found: 0, of: 1, limit: 0, asks: 'at most', holds: true, tasks: [] } as const;
  const pass = network(problem);
  if (pass.kind === 'circle') return { ...passed, found: 1, holds: false, tasks: pass.tasks };
  // Work in one go can't be made longer than a turnout.
  const on = pass.criticalPath.findLast(
    (i) =>
      isWork(problem.tasks[i]) && problem.tasks[i].progress.kind === 'waiting' && !problem.tasks[i].oneGo,
  );
  if (on === undefined) return { ...passed, tasks: [] };
  const length = calendar.between(pass.earlyStart[on], pass.earlyFinish[on]);
  const longer = problem.tasks.map((task, i): Task =>
    i === on ? { ...task, effort: { kind: 'fixed', minutes: length + more }, oneGo: false } : task,
  );
  const again = network({ ...problem, tasks: longer });
  if (again.kind === 'circle') return { ...passed, tasks: [] };
  const moved = calendar.between(pass.ready, again.ready);
  // Past the last turnout nothing can be told.
  const holds = moved >= more - calendar.longest || again.ready > problem.horizon;
  return { ...passed, found: holds ? 0 : 1, holds, tasks: holds ? [] : [on] };
}
