import { WorkCalendar, type Progress } from '@ribband/engine';
import type { PlanClock } from './minutes.js';
import type { LinkRecord, TaskRecord, YardRecords } from './yard-records.js';

/** How far a task has come at the plan's first minute, and what is left of its length. */
export interface Standing {
  progress: Progress;
  /** Minutes left of an elapsed or a fixed task; null where the task has no length of its own. */
  minutesLeft: number | null;
}

/**
 * Where every task stands. Time that passes by itself needs nobody to enter it: it runs from the end of what it
 * waits for, or from the haul-out where it waits for nothing, whether or not somebody looked.
 */
export function standings(
  yard: Pick<YardRecords, 'tasks' | 'turnouts' | 'hauledOutOn' | 'now'>,
  links: readonly LinkRecord[],
  clock: PlanClock,
): Map<string, Standing> {
  const now = clock.minuteFrom(yard.now);
  const calendar = new WorkCalendar(
    yard.turnouts.map((turnout) => ({
      start: clock.minute(turnout.startsAt),
      end: clock.minute(turnout.endsAt),
    })),
  );
  const tasks = new Map(yard.tasks.map((task) => [task.id, task]));
  const into = new Map<string, LinkRecord[]>();
  for (const link of links) into.set(link.afterId, [...(into.get(link.afterId) ?? []), link]);
  const found = new Map<string, Standing>();
  const walking = new Set<string>();

  const standing = (task: TaskRecord): Standing => {
    const known = found.get(task.id);
    if (known) return known;
    // Links in a circle never let one another begin.
    if (walking.has(task.id)) return { progress: { kind: 'waiting' }, minutesLeft: task.minutes };
    walking.add(task.id);
    const made = stand(task);
    walking.delete(task.id);
    found.set(task.id, made);
    return made;
  };

  const stand = (task: TaskRecord): Standing => {
    if (task.state === 'dropped') return { progress: { kind: 'waiting' }, minutesLeft: null };
    const startedAt = task.startedAt === null ? null : Math.min(now, clock.minute(task.startedAt));
    if (task.state === 'done') {
      const endedAt = Math.min(now, clock.minuteFrom(task.endedAt ?? yard.now));
      return {
        progress: { kind: 'done', startedAt: Math.min(startedAt ?? endedAt, endedAt), endedAt },
        minutesLeft: 0,
      };
    }
    if (task.kind === 'elapsed' && task.minutes !== null) return passing(task, startedAt, task.minutes);
    if (startedAt === null) return { progress: { kind: 'waiting' }, minutesLeft: task.minutes };
    return { progress: { kind: 'under way', startedAt }, minutesLeft: task.minutes };
  };

  const passing = (task: TaskRecord, entered: number | null, minutes: number): Standing => {
    const start = entered ?? startByItself(task);
    if (start === null || start >= now) return { progress: { kind: 'waiting' }, minutesLeft: minutes };
    const end = Math.max(start + minutes, waitsToEnd(task) ? now + 1 : start);
    return end <= now
      ? { progress: { kind: 'done', startedAt: start, endedAt: end }, minutesLeft: 0 }
      : { progress: { kind: 'under way', startedAt: start }, minutesLeft: end - now };
  };

  /** Whether something that it may not end before is still undone. */
  const waitsToEnd = (task: TaskRecord): boolean =>
    (into.get(task.id) ?? []).some((link) => {
      const before = tasks.get(link.beforeId);
      return before && link.relation.endsWith('to-finish') && standing(before).progress.kind !== 'done';
    });

  /** The minute at which nothing keeps a task any more, or null while something does. */
  const startByItself = (task: TaskRecord): number | null => {
    if (task.isHeld) return null;
    let start =
      task.notBefore === null ? clock.startOfDay(yard.hauledOutOn) : clock.startOfDay(task.notBefore);
    for (const link of into.get(task.id) ?? []) {
      const before = tasks.get(link.beforeId);
      if (!before || link.relation.endsWith('to-finish')) continue;
      const { progress } = standing(before);
      const end =
        link.relation === 'start-to-start'
          ? progress.kind === 'waiting'
            ? null
            : progress.startedAt
          : progress.kind === 'done'
            ? progress.endedAt
            : null;
      if (end === null) return null;
      start = Math.max(start, calendar.lagged(end, link.lagMinutes, link.lagKind === 'working'));
    }
    return start;
  };

  for (const task of yard.tasks) standing(task);
  return found;
}
