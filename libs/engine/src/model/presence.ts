import type { WorkCalendar } from '../calendar.js';
import type { Minute, Problem } from '../problem.js';
import { emptySet, put, type Crowd } from './people.js';

/** Who is there: each turnout cut into slices in which nobody comes, goes or loses a clearance. */
export interface Presence {
  /** Slices of turnout w lie between first[w] and first[w + 1]; each has one minute at which it begins. */
  first: Int32Array;
  from: Int32Array;
  /** `words` integers a slice. */
  here: Int32Array;
  /** Everybody who comes to the turnout at all. */
  ever: Int32Array;
}

/** What weeks are counted by: forward from the epoch, in a mirror back from the horizon. */
export interface Weeks {
  mirrored: boolean;
  problem: { horizon: Minute };
}

const WEEK = 7 * 24 * 60;

/** Index of the week that minute t lies in, weeks being counted from the plan’s epoch. */
export function weekOf({ mirrored, problem }: Weeks, t: Minute): number {
  return mirrored ? Math.ceil((problem.horizon - t) / WEEK) - 1 : Math.floor(t / WEEK);
}

/** The minute at which the week of minute t is over. */
export function weekEnd(weeks: Weeks, t: Minute): Minute {
  const week = weekOf(weeks, t);
  return weeks.mirrored ? weeks.problem.horizon - week * WEEK : (week + 1) * WEEK;
}

export function presenceOf(
  crowd: Crowd,
  calendar: WorkCalendar,
  weeks: Weeks,
  problem: Problem,
  span: (from: Minute, to: Minute) => number[],
  turnoutOf: (w: number) => number,
): Presence {
  const { words } = crowd;
  const stays: { rank: number; from: number; to: number }[][] = problem.turnouts.map(() => []);
  problem.people.forEach((person, p) => {
    for (const stay of person.stays) {
      if (!(stay.showUp > 0)) continue;
      const [from, to] = span(stay.from, stay.to);
      if (from <= to) stays[turnoutOf(stay.turnout)].push({ rank: crowd.rank[p], from, to });
    }
  });
  const lapses: number[] = [];
  for (const gate of crowd.gates) {
    if (!gate.lapses) continue;
    for (const t of [...gate.from, ...gate.till]) lapses.push(t);
  }
  const first = new Int32Array(calendar.count + 1);
  const from: number[] = [];
  const here: number[] = [];
  const ever = new Int32Array(calendar.count * words);
  for (let w = 0; w < calendar.count; w++) {
    const start = calendar.start[w];
    const end = calendar.end[w];
    const cuts = new Set([start]);
    const cut = (t: number) => t > start && t < end && cuts.add(t);
    for (const stay of stays[w]) {
      cut(stay.from);
      cut(stay.to);
    }
    for (const t of lapses) cut(t);
    if (crowd.anyCapped) for (let t = weekEnd(weeks, start); t < end; t = weekEnd(weeks, t)) cut(t);
    for (const t of [...cuts].sort((a, b) => a - b)) {
      const set = emptySet(words);
      for (const stay of stays[w]) if (stay.from <= t && t < stay.to) put(set, stay.rank);
      from.push(t);
      here.push(...set);
    }
    for (const stay of stays[w])
      if (stay.from < stay.to) ever[w * words + (stay.rank >> 5)] |= 1 << (stay.rank & 31);
    first[w + 1] = from.length;
  }
  return { first, from: Int32Array.from(from), here: Int32Array.from(here), ever };
}
