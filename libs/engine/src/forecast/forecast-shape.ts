import type { Minute } from '../problem.js';

/** What many futures of a yard say. Odds are shares of futures; `error` is the standard error of sampling them. */
export interface Forecast {
  format: 'ribband-forecast/1';
  futures: number;
  /** Ready by this minute in 50, 80 and 95 of 100 futures. */
  ready: { p50: Percentile; p80: Percentile; p95: Percentile };
  /** By lift slot of the problem's aim, in its order: odds of being ready by it. */
  slots: { at: Minute; odds: number; error: number }[];
  /** Odds of being ready by the gate. */
  gate: Odds;
  /** Share of futures that are not ready when the turnouts end. */
  never: number;
  /** Ready minutes at 0.5, 1.5, ... 99.5 %: a hundred points to draw the distribution with. Null past the horizon. */
  spread: (Minute | null)[];
  tasks: TaskOdds[];
  /** Weeks from the plan's now on in which it is decided, in order of time. */
  weeks: DecisiveWeek[];
  /** What the deciding chain spends its time on, greatest share first. */
  chain: ChainTime[];
  /** What the ready minute depends on, greatest share first: how much of its variance goes with each. */
  drivers: Driver[];
}

export interface Odds {
  odds: number;
  error: number;
}

export interface Percentile {
  /** Null where it lies past the last turnout. */
  minute: Minute | null;
  /** Between these two it lies in 95 of 100 samplings like this one. */
  from: Minute | null;
  to: Minute | null;
}

export interface TaskOdds {
  /** Share of futures in which it stands on the chain that decides the ready minute. */
  criticality: number;
  /** Mean over those futures in which it was done; null where none is. */
  start: Minute | null;
  end: Minute | null;
}

export interface DecisiveWeek {
  /** Its first minute. */
  from: Minute;
  /** Which share of the ready minute's variance goes with the hours worked in this week, 0..1. */
  share: number;
}

/** What the chain that decides the ready minute spends its time on, working or waiting. */
export interface ChainTime {
  /** A skill, hands of any kind, a tool, an opening limit, time that passes by itself, days without turnouts that fit. */
  kind: 'skill' | 'crew' | 'tool' | 'opening' | 'elapsed' | 'calendar';
  /** Index of the skill or tool, or null. */
  index: number | null;
  /** Share of the chain's working time, mean over futures. */
  share: number;
}

export interface Driver {
  kind: 'rate' | 'person' | 'late';
  /** Index of the rate, person or task. */
  index: number;
  share: number;
  /** Minutes by which ready moves for one standard deviation of it; below 0 when more of it makes ready earlier. */
  minutes: number;
}
