import { EVER, NEVER, type WorkCalendar } from './calendar.js';
import type { Minute, Problem, Task } from './problem.js';

/**
 * Where each task can lie on the calendar when people are unlimited: its length, and its earliest and latest place.
 *
 * One-go work, elapsed time and holds lie in one piece, so pushing an end pushes the start. Splittable work may wait
 * between turnouts: an end that is pushed leaves the start alone, and each turnout after the first loses set-up.
 */
/** No length, any minute: a hold without people, a dummy. */
export const ANYWHERE = 0;
/** No length, but somebody must be at the yard. */
export const AT_THE_YARD = 1;
/** Minutes of the calendar, day and night. */
export const ELAPSED = 2;
/** One piece inside one turnout. */
export const ONE_GO = 3;
/** Pieces in one turnout after the other. */
export const SPLIT = 4;

/** Places tasks: what a network pass asks of the calendar. */
export interface Places {
  readonly calendar: WorkCalendar;
  /** What the last call of `early` or `late` found. */
  start: Minute;
  end: Minute;
  /**
   * The earliest start at minute `from` or later and the earliest end at `to` or later (EVER: any), left in `start`
   * and `end`; NEVER where the turnouts run out.
   */
  early(i: number, from: Minute, to: Minute): void;
  /** The latest start at `from` at most and the latest end at `to` at most, left in `start` and `end`. */
  late(i: number, from: Minute, to: Minute): void;
}

/** 'efficient' is the pace that a foreman would plan with; 'fastest' the one that no crew can beat. */
export type Pace = 'efficient' | 'fastest';

export class Lengths implements Places {
  /** ANYWHERE to SPLIT, a task. */
  readonly lies: Uint8Array;
  /** Minutes of work, or of the calendar for elapsed time. May be overwritten between passes. */
  readonly minutes: Int32Array;
  readonly setUp: Int32Array;
  start: Minute = 0;
  end: Minute = 0;

  constructor(
    problem: Problem,
    readonly calendar: WorkCalendar,
  ) {
    const n = problem.tasks.length;
    this.lies = new Uint8Array(n);
    this.minutes = new Int32Array(n);
    this.setUp = new Int32Array(n);
    const hands = handsFor(problem);
    problem.tasks.forEach((task, i) => {
      this.minutes[i] = minutesOf(task, hands(task), 'efficient');
      this.lies[i] = liesOf(task, this.minutes[i]);
      this.setUp[i] = task.setUpMinutes;
    });
  }

  early(i: number, from: Minute, to: Minute): void {
    const { calendar } = this;
    const minutes = this.minutes[i];
    if (from >= NEVER || to >= NEVER) {
      this.start = this.end = NEVER;
      return;
    }
    switch (this.lies[i]) {
      case ANYWHERE:
        this.start = this.end = from > to ? from : to;
        return;
      case AT_THE_YARD: {
        const t = from > to ? from : to;
        this.start = this.end = calendar.previous(t) === t ? t : calendar.next(t);
        return;
      }
      case ELAPSED:
        this.start = from > to - minutes ? from : to - minutes;
        this.end = this.start + minutes;
        return;
      case ONE_GO:
        this.start = calendar.fit(from > to - minutes ? from : to - minutes, minutes);
        this.end = this.start >= NEVER ? NEVER : this.start + minutes;
        return;
      default: {
        this.start = calendar.next(from);
        const end =
          this.setUp[i] === 0 ? calendar.advance(from, minutes) : this.#endWithSetUp(i, from, minutes);
        this.end = end >= to ? end : this.#workedUpTo(to);
      }
    }
  }

  late(i: number, from: Minute, to: Minute): void {
    const { calendar } = this;
    const minutes = this.minutes[i];
    const whole = from + minutes < to ? from + minutes : to;
    switch (this.lies[i]) {
      case ANYWHERE:
        this.start = this.end = whole;
        return;
      case AT_THE_YARD:
        this.start = this.end = calendar.next(whole) === whole ? whole : calendar.previous(whole);
        return;
      case ELAPSED:
        this.start = whole - minutes;
        this.end = whole;
        return;
      case ONE_GO:
        this.start = calendar.fitBefore(whole, minutes);
        this.end = this.start + minutes;
        return;
      default: {
        const start =
          this.setUp[i] === 0 ? calendar.retreat(to, minutes) : this.#startWithSetUp(i, to, minutes);
        const last = from >= NEVER ? NEVER : calendar.previous(from + 1) - 1;
        this.start = start < last ? start : last;
        this.end = calendar.previous(to);
      }
    }
  }

  /** The earliest end, whatever the start: the first piece is left out where it would only buy set-up. */
  #endWithSetUp(i: number, from: Minute, minutes: number): Minute {
    const { calendar } = this;
    const setUp = this.setUp[i];
    let left = minutes;
    let begun = false;
    for (let w = calendar.turnoutAfter(from); w < calendar.count; w++) {
      const begin = from > calendar.start[w] ? from : calendar.start[w];
      const room = calendar.end[w] - begin;
      const lost = begun ? setUp : 0;
      if (left + lost <= room) return begin + lost + left;
      if (room <= setUp) continue;
      left -= room - lost;
      begun = true;
    }
    return NEVER;
  }

  #startWithSetUp(i: number, to: Minute, minutes: number): Minute {
    const { calendar } = this;
    const setUp = this.setUp[i];
    let left = minutes;
    let w = calendar.turnoutAfter(to - 1);
    if (w === calendar.count) w--;
    for (; w >= 0; w--) {
      const end = to < calendar.end[w] ? to : calendar.end[w];
      const room = end - calendar.start[w];
      if (left <= room) return end - left;
      if (room > setUp) left -= room - setUp;
    }
    return EVER;
  }

  /** The first minute, t at least, at which work can end. */
  #workedUpTo(t: Minute): Minute {
    if (this.calendar.previous(t) === t) return t;
    const next = this.calendar.next(t);
    return next >= NEVER ? NEVER : next + 1;
  }
}

export function liesOf(task: Task, minutes: number): number {
  if (task.effort.kind === 'elapsed') return ELAPSED;
  if (task.effort.kind === 'hold') return isManned(task) ? AT_THE_YARD : ANYWHERE;
  if (minutes === 0) return ANYWHERE;
  return task.oneGo ? ONE_GO : SPLIT;
}

function isManned(task: Task): boolean {
  return task.crew.min > 0 || task.seats.length > 0;
}

/** Minutes that the task takes with as many hands as that to choose from, at most. */
export function minutesOf(task: Task, hands: number, pace: Pace): number {
  const { effort, crew } = task;
  if (effort.kind === 'hold') return 0;
  if (effort.kind !== 'work') return effort.minutes;
  const most = Math.max(1, Math.min(crew.max, hands));
  const rate = rateOf(task, pace === 'efficient' ? Math.min(Math.max(1, crew.efficient), most) : most);
  return Math.ceil(effort.personMinutes / rate - 1e-9);
}

/** Minutes of work a minute of so many full hands. */
export function rateOf(task: Task, hands: number): number {
  const full = Math.min(hands, Math.max(1, task.crew.efficient));
  return full + (hands - full) * task.extraHandShare;
}

/** How many people hold all that a task asks of everyone on it. Tasks share few such sets, so each is counted once. */
function handsFor(problem: Problem): (task: Task) => number {
  const known = new Map<string, number>();
  const there = problem.people.filter((person) => person.stays.some((stay) => stay.showUp > 0));
  return (task) => {
    if (task.clearances.length === 0) return there.length;
    const key = task.clearances.join();
    let count = known.get(key);
    if (count === undefined) {
      count = there.filter((person) =>
        task.clearances.every((c) => person.clearances.some((held) => held.clearance === c)),
      ).length;
      known.set(key, count);
    }
    return count;
  };
}
