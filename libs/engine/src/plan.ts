import type { Minute } from './problem.js';

/** What the engine gives back. Indices refer to the arrays of the problem that was solved. */
export interface Plan {
  format: 'ribband-plan/1';
  /** The minute at which the last task ends. */
  ready: Minute;
  /** Index into `aim.slots` of the first slot at or after `ready`, or null when the slots run out. */
  slot: number | null;
  /** In order of start. Nobody is in two of them at once. */
  segments: Segment[];
  /** One entry a task, in the problem's order. */
  tasks: TaskTimes[];
  /** From the task that ends last back to the first cause, earliest first. */
  launchChain: Knot[];
  bound: Bound;
  /**
   * The skills that run short first if fewer hours come than were promised, by the plan's ready minute
   * (`scarcestSkills`); absent where it was not looked for.
   */
  scarcest?: Bottleneck | null;
  /** True when `ready` equals the bound: no better plan exists. */
  proved: boolean;
  /** How many postings of the problem the plan does not keep. */
  postingsChanged: number;
  /** Generation passes spent, forward or backward. */
  schedules: number;
  /** Steps that the branch search took, where it took any. */
  steps?: number;
  /** How the engine drew the plan, so that it can be drawn again; absent where it was not drawn by a pass. */
  drawn?: Drawing;
}

export interface Drawing {
  /** The tasks in the order in which they were placed. */
  order: number[];
  /** By task, which of the engine's ways of crewing it was taken. */
  crewing: number[];
  /** Postings of the problem that were only wished for and held firm. */
  held: number[];
}

export interface Segment {
  task: number;
  /** Index of the turnout, or null for time that passes by itself. */
  turnout: number | null;
  start: Minute;
  end: Minute;
  crew: Hand[];
}

export interface Hand {
  person: number;
  /** Index into the task's seats, or null for a further hand. */
  seat: number | null;
}

export interface TaskTimes {
  start: Minute;
  end: Minute;
  /** Working minutes that the start can slip, order and crews kept, before `ready` moves. */
  float: number;
  heldBy: Hold;
}

/** Why a task does not start earlier than it does. */
export type Hold =
  | { kind: 'nothing' }
  | { kind: 'link'; link: number; task: number }
  | { kind: 'person'; person: number; task: number }
  | { kind: 'skill'; skill: number; task: number | null }
  | { kind: 'crew'; task: number | null }
  | { kind: 'tool'; tool: number; task: number }
  | { kind: 'opening'; limit: number; task: number }
  | { kind: 'calendar' }
  | { kind: 'not before' }
  | { kind: 'posted' };

/** One knot of the launch chain: a task and what ties it to the knot before. */
export interface Knot {
  task: number;
  heldBy: Hold;
}

/** An earliest ready minute that no plan can beat. */
export interface Bound {
  ready: Minute;
  kind: 'critical path' | 'resource energy' | 'skill load' | 'destructive' | 'search';
  /** The scarce skills, people or tools that give the bound, where it comes from a load. */
  bottleneck: Bottleneck | null;
}

/** A load: what there is to do between two minutes, and what there is to do it with. */
export interface Bottleneck {
  skills: number[];
  people: number[];
  /** Tools that are short; then the minutes are those of one tool in use. */
  tools?: number[];
  /** Person-minutes that must be worked between the two minutes, and person-minutes there are. */
  needed: number;
  there: number;
  from: Minute;
  to: Minute;
}

export type Outcome =
  | { kind: 'plan'; plan: Plan }
  /**
   * Wishes that can't all hold. `sets` has them, by index, in smallest sets: the wishes of one can't all hold together,
   * and without any one of them, as tried out, they can. What is in no set was found by rule alone.
   */
  | { kind: 'no plan'; wishes: Wish[]; sets?: number[][] };

/** `have` and `longest` are null where more than the task itself stands in the way. */
export type Wish =
  | { kind: 'circle'; tasks: number[] }
  | { kind: 'seat'; task: number; seat: number; have: number | null; need: number }
  | { kind: 'crew'; task: number; have: number | null; need: number }
  /** A clearance that everyone on the task, or who takes the seat, must hold. */
  | { kind: 'card'; task: number; seat: number | null; clearance: number }
  | { kind: 'one go'; task: number; longest: number | null; need: number | null }
  | { kind: 'not before'; task: number }
  | { kind: 'tool'; task: number; tool: number }
  | { kind: 'opening'; task: number; limit: number }
  | { kind: 'posting'; posting: number }
  /** What somebody works at most, a week and a turnout. */
  | { kind: 'cap'; person: number }
  | { kind: 'horizon'; task: number };
