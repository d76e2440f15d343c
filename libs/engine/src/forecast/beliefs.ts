import type { Problem } from '../problem.js';

/**
 * What is not known for certain about a problem, as chances. Indices are those of the problem.
 *
 * `plainBeliefs` says only what the problem itself says; the `learning` folder makes beliefs out of a yard's record.
 */
export interface Beliefs {
  /** By person: how likely they come when expected. Null: each stay's own `showUp` is taken as known. */
  showUp: (Beta | null)[];
  /**
   * How alike people's coming is at one turnout (weather, shared cars), 0..1: 0 each for themselves, 1 all or none
   * who are equally likely. It changes nobody's own chance.
   */
  together: number;
  /** Kinds of work, each with a pace that is uncertain for all its tasks together. */
  rates: RateBelief[];
  /** One entry a task, in the problem's order. */
  tasks: TaskBelief[];
}

/** Chance with mean a / (a + b), as after a times yes and b times no. */
export interface Beta {
  a: number;
  b: number;
}

/** A positive figure with mean shape / rate and relative spread 1 / sqrt(shape). */
export interface Gamma {
  shape: number;
  rate: number;
}

export interface RateBelief {
  id: string;
  name: string;
  /** Pieces a person-hour; where nothing is counted, hours' worth of the estimate an hour (1 is as estimated). */
  pace: Gamma;
  /** How much the pace differs from turnout to turnout, standard deviation over mean. */
  byTurnout: number;
}

export interface TaskBelief {
  /** Index into `rates`, or null where the effort is known as stated or by its three points. */
  rate: number | null;
  /** The pace that the problem's effort was worked out with, in the unit of the rate. Must be above 0. */
  plannedPace: number;
  /** How much this task by itself may differ from its kind, standard deviation over mean. */
  own: number;
  /** Least, likeliest and most minutes (person-minutes of a work) in place of the problem's figure. */
  points: ThreePoints | null;
  /** Time by which it may be later than stated: stock on its way, a date not to start before. */
  late: Lateness | null;
  /** Chance that what is shown is sent back, and which share of the work is then done again. */
  rework: { chance: number; share: number } | null;
}

export interface ThreePoints {
  low: number;
  likely: number;
  high: number;
}

export interface Lateness {
  /** Chance that it is late at all. */
  chance: number;
  /** Minutes of the calendar, when it is. */
  minutes: Gamma;
}

/** All as the problem says, show-ups of the stays taken as known and each for themselves. */
export function plainBeliefs(problem: Problem): Beliefs {
  return {
    showUp: problem.people.map(() => null),
    together: 0,
    rates: [],
    tasks: problem.tasks.map(() => plainTask()),
  };
}

/** A task of which nothing is uncertain. */
export function plainTask(): TaskBelief {
  return { rate: null, plannedPace: 1, own: 0, points: null, late: null, rework: null };
}
