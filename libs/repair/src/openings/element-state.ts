import { elementStateAt, type ElementState, type OpeningTimes } from '@ribband/hull';
import type { PlannedSpan } from '../plan-view/plan-view.js';

/** When a task that opens or closes an element began and was done, as far as it was; epoch milliseconds. */
export interface TaskTimes {
  begunAt: number | null;
  doneAt: number | null;
}

export interface ElementRecord {
  /** Null where no task opens it, or closes it. */
  opener: TaskTimes | null;
  closer: TaskTimes | null;
  /** What was seen last at the yard. */
  report: { isOpen: boolean; yardAt: number } | null;
}

const notYet: OpeningTimes['opener'] = { start: null, end: null };

/**
 * When an element was opened and shut, out of tallies, passes and what was seen at the yard. A report outdoes what is
 * older than it: seen open it is open from then, seen shut it is shut from then, until work on it goes on.
 * @returns null for an element that nothing has opened and nothing will
 */
export function realTimes({ opener, closer, report }: ElementRecord): OpeningTimes | null {
  const times: OpeningTimes = {
    // What no task opens and a task closes is open from the first.
    opener: opener ? spanOf(opener) : closer ? { start: 0, end: 0 } : notYet,
    closer: closer ? spanOf(closer) : notYet,
  };
  const seen = report && !happenedAfter(times, report.yardAt) ? seenSo(times, report) : times;
  return seen.opener.start === null && !opener && !closer ? null : seen;
}

const spanOf = ({ begunAt, doneAt }: TaskTimes): OpeningTimes['opener'] => ({ start: begunAt, end: doneAt });

const happenedAfter = ({ opener, closer }: OpeningTimes, at: number): boolean =>
  [opener.start, opener.end, closer.start, closer.end].some((time) => time !== null && time > at);

function seenSo(times: OpeningTimes, { isOpen, yardAt }: { isOpen: boolean; yardAt: number }): OpeningTimes {
  const state = elementStateAt(times, yardAt);
  const open = isOpenIn(state);
  if (open === isOpen) return times;
  if (isOpen) return { opener: { start: yardAt, end: yardAt }, closer: notYet };
  return {
    opener: { start: times.opener.start, end: times.opener.end ?? yardAt },
    closer: { start: yardAt, end: yardAt },
  };
}

/** Whether an element counts against a limit: from the first work that opens it to the last that shuts it. */
export const isOpenIn = (state: ElementState): boolean => state !== 'standing' && state !== 'closed';

/**
 * What the plan adds to what has happened: it fills in what is not known yet, and nothing before now. Work that the
 * plan wanted done by now and that isn't is taken as coming next.
 */
export function plannedOnward(
  real: OpeningTimes,
  plan: { opener: PlannedSpan | null; closer: PlannedSpan | null },
  now: number,
): OpeningTimes {
  const onward = (known: OpeningTimes['opener'], planned: PlannedSpan | null): OpeningTimes['opener'] => ({
    start: known.start ?? (planned && Math.max(planned.startsAt, now + 1)),
    end: known.end ?? (planned && Math.max(planned.endsAt, now + 1)),
  });
  return { opener: onward(real.opener, plan.opener), closer: onward(real.closer, plan.closer) };
}

/** A change of state and its instant. */
export interface Change {
  at: number;
  state: ElementState;
}

/** All changes of an element's state in order of time; before the first it is standing. */
export function courseOf(times: OpeningTimes | null): Change[] {
  if (times === null) return [];
  const { opener, closer } = times;
  const instants = [opener.start, opener.end, closer.start, closer.end].filter((at) => at !== null);
  const changes: Change[] = [];
  for (const at of [...new Set(instants)].sort((a, b) => a - b)) {
    const state = elementStateAt(times, at);
    if (state !== (changes.at(-1)?.state ?? 'standing')) changes.push({ at, state });
  }
  return changes;
}
