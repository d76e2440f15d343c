import { EVER, NEVER, type WorkCalendar } from '../calendar.js';
import type { Minute, Problem } from '../problem.js';
import type { Crowd } from './people.js';

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
  problem: Pick<Problem, 'horizon'>;
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

export function presenceOf(crowd: Crowd, calendar: WorkCalendar, weeks: Weeks, problem: Problem): Presence {
  const { words } = crowd;
  const { at, person, from: since, to: until } = staysOf(problem, weeks.mirrored);
  const lapses = lapsesOf(crowd);
  const first = new Int32Array(calendar.count + 1);
  const from: number[] = [];
  const here: number[] = [];
  const ever = new Int32Array(calendar.count * words);
  const whole = new Int32Array(words);
  const cuts: number[] = [];
  const cut = (t: number, start: number, end: number) => {
    if (t > start && t < end && !cuts.includes(t)) cuts.push(t);
  };
  const parts: number[] = [];
  let next = 0;
  for (let w = 0; w < calendar.count; w++) {
    const start = calendar.start[w];
    const end = calendar.end[w];
    cuts.length = parts.length = 0;
    cuts.push(start);
    whole.fill(0);
    for (let k = at[w]; k < at[w + 1]; k++) {
      const rank = crowd.rank[person[k]];
      const word = rank >> 5;
      const bit = 1 << (rank & 31);
      if (since[k] < until[k]) ever[w * words + word] |= bit;
      if (since[k] <= start && until[k] >= end) whole[word] |= bit;
      else {
        parts.push(k);
        cut(since[k], start, end);
        cut(until[k], start, end);
      }
    }
    while (next < lapses.length && lapses[next] <= start) next++;
    for (let k = next; k < lapses.length && lapses[k] < end; k++) cut(lapses[k], start, end);
    if (crowd.anyCapped)
      for (let t = weekEnd(weeks, start); t < end; t = weekEnd(weeks, t)) cut(t, start, end);
    if (cuts.length > 1) cuts.sort((a, b) => a - b);
    for (const t of cuts) {
      const row = here.length;
      for (let q = 0; q < words; q++) here.push(whole[q]);
      for (const k of parts) {
        const rank = crowd.rank[person[k]];
        if (since[k] <= t && t < until[k]) here[row + (rank >> 5)] |= 1 << (rank & 31);
      }
      from.push(t);
    }
    first[w + 1] = from.length;
  }
  return { first, from: Int32Array.from(from), here: Int32Array.from(here), ever };
}

/** Stays on which somebody may be counted: those of turnout w lie between at[w] and at[w + 1], in order of people. */
export interface StaysByTurnout {
  at: Int32Array;
  person: Int32Array;
  from: Int32Array;
  to: Int32Array;
}

/** @param mirrored with time turned round at the horizon */
export function staysOf({ people, turnouts, horizon }: Problem, mirrored: boolean): StaysByTurnout {
  const count = turnouts.length;
  const at = new Int32Array(count + 1);
  const turned = (w: number) => (mirrored ? count - 1 - w : w);
  let size = 0;
  for (const { stays } of people) {
    for (const stay of stays) {
      if (!(stay.showUp > 0)) continue;
      at[turned(stay.turnout) + 1]++;
      size++;
    }
  }
  for (let w = 0; w < count; w++) at[w + 1] += at[w];
  const next = at.slice();
  const person = new Int32Array(size);
  const from = new Int32Array(size);
  const to = new Int32Array(size);
  people.forEach(({ stays }, p) => {
    for (const stay of stays) {
      if (!(stay.showUp > 0)) continue;
      const k = next[turned(stay.turnout)]++;
      person[k] = p;
      from[k] = mirrored ? horizon - stay.to : stay.from;
      to[k] = mirrored ? horizon - stay.from : stay.to;
    }
  });
  return { at, person, from, to };
}

/** Minutes at which somebody begins or ceases to hold a clearance, in order. */
function lapsesOf({ gates }: Crowd): number[] {
  const minutes = new Set<number>();
  for (const gate of gates) {
    if (!gate.lapses) continue;
    for (const t of gate.from) if (t > EVER && t < NEVER) minutes.add(t);
    for (const t of gate.till) if (t > EVER && t < NEVER) minutes.add(t);
  }
  return [...minutes].sort((a, b) => a - b);
}
