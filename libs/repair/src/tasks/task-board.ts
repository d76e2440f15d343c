import type { LagKind, Relation } from '../links/link-words.js';
import type { Progress } from './progress.js';
import type { TaskKind, TaskState } from './task-words.js';

export interface BoardTask {
  id: string;
  kind: TaskKind;
  /** Minutes that it takes by itself, where it takes time and no crew; else null. */
  elapsedMinutes: number | null;
  /** Epoch milliseconds before which it may not start, or null. */
  notBefore: number | null;
  isHeld: boolean;
  isDropped: boolean;
  /** Whether somebody has taken a place on it at a turnout to come. */
  isTaken: boolean;
  progress: Progress;
}

export interface BoardLink {
  beforeId: string;
  afterId: string;
  relation: Relation;
  lagMinutes: number;
  lagKind: LagKind;
}

export interface Spans {
  startsAt: number;
  endsAt: number;
}

export interface Standing {
  state: TaskState;
  begunAt: number | null;
  doneAt: number | null;
}

const minute = 60_000;

/** The instant at which so many working minutes have passed since another; null when the turnouts don't reach so far. */
export function afterWorking(from: number, minutes: number, turnouts: readonly Spans[]): number | null {
  let left = minutes * minute;
  if (left <= 0) return from;
  for (const { startsAt, endsAt } of turnouts) {
    const begin = Math.max(startsAt, from);
    if (endsAt <= begin) continue;
    if (endsAt - begin >= left) return begin + left;
    left -= endsAt - begin;
  }
  return null;
}

/**
 * How every task stands: derived from its own records, from what it waits for, and from the clock. Time that passes
 * by itself begins when nothing keeps it and ends without anybody's doing.
 *
 * A task waits while something that its start hangs on isn't done; links to its end don't keep it from beginning.
 * Dropped tasks keep nobody waiting. A hold is done when it is passed, other work as soon as it is shown.
 *
 * @param turnouts in order of time, those of the past included
 * @param since when the haul-out began: time that waits for nothing runs from there
 */
export function standings(
  tasks: readonly BoardTask[],
  links: readonly BoardLink[],
  turnouts: readonly Spans[],
  clock: { now: number; since: number },
): Map<string, Standing> {
  const { now } = clock;
  const byId = new Map(tasks.map((task) => [task.id, task]));
  const into = new Map<string, BoardLink[]>();
  for (const link of links) {
    const known = into.get(link.afterId);
    if (known) known.push(link);
    else into.set(link.afterId, [link]);
  }
  const found = new Map<string, Standing>();
  const onTheWay = new Set<string>();

  const standing = (task: BoardTask): Standing => {
    const known = found.get(task.id);
    if (known) return known;
    // Links never run in a circle; if records were ever damaged so, they keep each other waiting.
    if (onTheWay.has(task.id)) return { state: 'waiting', begunAt: null, doneAt: null };
    onTheWay.add(task.id);
    const made = stand(task);
    onTheWay.delete(task.id);
    found.set(task.id, made);
    return made;
  };

  const stand = (task: BoardTask): Standing => {
    const { stage, begunAt, doneAt } = task.progress;
    if (task.isDropped) return { state: 'dropped', begunAt, doneAt };
    if (stage === 'passed') return { state: 'passed', begunAt: begunAt ?? doneAt, doneAt };
    if (task.isHeld) return { state: 'held', begunAt, doneAt: null };
    if (stage === 'shown') return { state: 'shown', begunAt, doneAt: task.kind === 'hold' ? null : doneAt };
    if (stage === 'redo') return { state: 'redo', begunAt, doneAt: null };
    if (task.elapsedMinutes !== null) return passing(task, task.elapsedMinutes);
    if (stage === 'begun') return { state: 'under-way', begunAt, doneAt: null };
    const clearAt = clearSince(task);
    if (clearAt === null || clearAt > now) return { state: 'waiting', begunAt: null, doneAt: null };
    return { state: task.isTaken ? 'taken' : 'clear', begunAt: null, doneAt: null };
  };

  const passing = (task: BoardTask, minutes: number): Standing => {
    const begunAt = task.progress.begunAt ?? clearSince(task);
    if (begunAt === null || begunAt > now) return { state: 'waiting', begunAt: null, doneAt: null };
    const doneAt = begunAt + minutes * minute;
    if (doneAt > now || waitsToEnd(task)) return { state: 'under-way', begunAt, doneAt: null };
    return { state: 'passed', begunAt, doneAt };
  };

  const waitsToEnd = (task: BoardTask): boolean =>
    (into.get(task.id) ?? []).some((link) => {
      const before = byId.get(link.beforeId);
      if (!before || before.isDropped || !link.relation.endsWith('to-finish')) return false;
      const end = link.relation === 'finish-to-finish' ? standing(before).doneAt : standing(before).begunAt;
      return end === null;
    });

  /** The instant since which nothing has kept a task from beginning; null while something does. */
  const clearSince = (task: BoardTask): number | null => {
    let since = Math.max(clock.since, task.notBefore ?? -Infinity);
    for (const link of into.get(task.id) ?? []) {
      const before = byId.get(link.beforeId);
      if (!before || before.isDropped || link.relation.endsWith('to-finish')) continue;
      const end = endOf(link, standing(before));
      if (end === null) return null;
      const lagged =
        link.lagKind === 'elapsed'
          ? end + link.lagMinutes * minute
          : afterWorking(end, link.lagMinutes, turnouts);
      if (lagged === null) return null;
      since = Math.max(since, lagged);
    }
    return since;
  };

  // In an order in which nothing waits for a later one, so that long chains stay shallow.
  for (const task of inOrder(tasks, into)) standing(task);
  return found;
}

/** The end of the task before that a start hangs on. Below zero the two may overlap once the first has begun. */
function endOf(link: BoardLink, before: Standing): number | null {
  if (link.relation === 'start-to-start') return before.begunAt;
  return link.lagMinutes < 0 ? (before.doneAt ?? before.begunAt) : before.doneAt;
}

function inOrder(tasks: readonly BoardTask[], into: ReadonlyMap<string, BoardLink[]>): BoardTask[] {
  const byId = new Map(tasks.map((task) => [task.id, task]));
  const followers = new Map<string, string[]>();
  const waitsFor = new Map<string, number>();
  for (const [id, links] of into)
    for (const { beforeId } of links) {
      if (!byId.has(beforeId)) continue;
      waitsFor.set(id, (waitsFor.get(id) ?? 0) + 1);
      const known = followers.get(beforeId);
      if (known) known.push(id);
      else followers.set(beforeId, [id]);
    }
  const order = tasks.filter((task) => !waitsFor.get(task.id));
  for (const task of order)
    for (const id of followers.get(task.id) ?? []) {
      const left = (waitsFor.get(id) ?? 0) - 1;
      waitsFor.set(id, left);
      const follower = byId.get(id);
      if (left === 0 && follower) order.push(follower);
    }
  const seen = new Set(order.map((task) => task.id));
  return [...order, ...tasks.filter((task) => !seen.has(task.id))];
}
