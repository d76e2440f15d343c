/**
 * The scheduling problem as the engine sees it: minutes, indices and numbers, no records and no calendar days.
 *
 * Every time is a whole minute since the plan's epoch. Every reference between parts is an index into the
 * problem's own arrays. Ids and names are carried through untouched, only to be shown again.
 *
 * What a plan must keep, where the fields alone leave it open:
 * - Spans are half open: a segment [start, end) and a stay [from, to) hold neither `end` nor `to`.
 * - A segment has one crew from its start to its end. Another crew is another segment; one that starts at the very
 *   minute where the one before ended, in the same turnout, goes on without set-up.
 * - Work that may be split stops only at its turnout's end, or when one of its hands has to leave (end of the stay,
 *   cap reached) or a tool is taken away; it may go on at any later minute, after `setUpMinutes`.
 * - Work is done when the sum over segments of (minutes less set-up) x (rate of the crew) reaches `personMinutes`.
 *   Rate of a crew: hands in order of what they add, full ones first; the first `efficient` count whole, those
 *   beyond times `extraHandShare`; a learner always times `learnerShare`.
 * - A learner on a task has as best level, among the skills the task seats, exactly 1. In a crew with a learner
 *   somebody has level 2 or more in one of these skills.
 * - A hold with seats happens at a minute at which those who fill them are there (`from` and `to` included) and
 *   keeps them from no other work. A hold without people, and elapsed time, may begin at any minute.
 * - A work, fixed or elapsed task of 0 minutes is a mark: no crew, no tools, any minute that its links allow.
 * - Links look at the start of a task's first segment and the end of its last. Where `after` has begun nothing is
 *   asked of its start; where it is done, nothing at all.
 * - Elapsed time has no crew; its tools are held day and night. Other tools are held while a segment runs.
 */
export type Minute = number;

export interface Problem {
  format: 'ribband-problem/1';
  /** Nothing that has not begun yet may start before this minute. */
  now: Minute;
  /** No work may end after this minute. */
  horizon: Minute;
  skills: Named[];
  /** What a person must hold to work on some tasks: a card, an age, a consent. */
  clearances: Named[];
  /** Dated working sessions, in order of time, not overlapping. Work happens only inside one of them. */
  turnouts: Turnout[];
  people: Person[];
  /** Machines, benches, stations and hired plant: anything that a task holds while it runs. */
  tools: Tool[];
  /** Hull elements that are open from the start of the task that opens them to the end of the one that closes them. */
  elements: Named[];
  openingLimits: OpeningLimit[];
  tasks: Task[];
  links: Link[];
  posted: Posting[];
  aim: Aim;
}

export interface Named {
  id: string;
  name: string;
}

export interface Turnout {
  id: string;
  start: Minute;
  end: Minute;
}

export interface Person extends Named {
  /** Level 0..4 per skill, in the order of `Problem.skills`: none, learning, works alone, teaches, may sign off. */
  levels: number[];
  /** When this person is expected; at most one stay a turnout, inside the turnout's times. */
  stays: Stay[];
  /** Clearances held; `until` is the last minute on which one counts, or null when it does not lapse. */
  clearances: { clearance: number; until: Minute | null }[];
  /** Most minutes of work in any one of the weeks (10,080 minutes) counted from the epoch, or null. */
  minutesAWeek: number | null;
  /** Most minutes of work in one turnout, or null. */
  minutesATurnout: number | null;
}

export interface Stay {
  turnout: number;
  from: Minute;
  to: Minute;
  /** Chance that the person comes, 0..1. The plan counts on those it names, never on a 0; the forecast samples. */
  showUp: number;
}

export interface Tool extends Named {
  capacity: number;
  /** Capacity where it differs from the usual one, as spans in order of time; classical time-varying capacity. */
  spans: { from: Minute; to: Minute; capacity: number }[];
}

/** At no minute may more than `atMost` of these elements be open. */
export interface OpeningLimit extends Named {
  elements: number[];
  atMost: number;
  /**
   * In force from this minute on; without it always. What was opened before and is open still counts from this
   * minute as if it were opened then, so nothing may be opened that would be too much by then.
   */
  from?: Minute | undefined;
}

/** What has to be done before the task ends. */
export type Effort =
  /** Person-minutes that a crew works off inside turnouts; the more hands, the sooner. */
  | { kind: 'work'; personMinutes: number }
  /** A set length inside turnouts, whatever the crew: a lift, a class. */
  | { kind: 'fixed'; minutes: number }
  /** Time of the calendar that passes by itself, day and night: glue, paint, stock on its way. */
  | { kind: 'elapsed'; minutes: number }
  /** A say-so by a named person: no length of its own. */
  | { kind: 'hold' };

export interface Task extends Named {
  effort: Effort;
  /**
   * Crew that may start, crew up to which each hand counts in full, crew beyond which no hand is let in.
   * All zero where nobody is needed.
   */
  crew: { min: number; efficient: number; max: number };
  /** Seats that must all be filled for the whole of every segment; they count towards the crew. */
  seats: Seat[];
  /** Clearances that everyone on the task must hold. */
  clearances: number[];
  /** True: one uninterrupted segment. False: may stop at a turnout's end and go on at a later one. */
  oneGo: boolean;
  /** Working minutes lost at each return to a task that was stopped. */
  setUpMinutes: number;
  /** What a hand beyond the efficient crew adds, as a fraction of a full one. */
  extraHandShare: number;
  /** What a learner (level 1 in each skill that the task seats) adds, as a fraction of a full hand. */
  learnerShare: number;
  /** Tools held while a segment runs. */
  tools: { tool: number; count: number }[];
  /** Elements that are open from this task's start. One opener an element at most; without one it is open already. */
  opens: number[];
  /** Elements that are shut at this task's end. One closer an element at most; without one it stays open. */
  closes: number[];
  /** Not before this minute whatever the links say, or null. */
  notBefore: Minute | null;
  progress: Progress;
}

export type Progress =
  | { kind: 'waiting' }
  /** Begun; `effort` is what is left from `now` on, set-up for taking it up again included. */
  | { kind: 'under way'; startedAt: Minute }
  | { kind: 'done'; startedAt: Minute; endedAt: Minute };

export interface Seat {
  skill: number;
  /** Least level, 1..4. */
  level: number;
  count: number;
  /** Clearances that only the holder of this seat needs. */
  clearances: number[];
}

export type Relation = 'finish-to-start' | 'start-to-start' | 'finish-to-finish' | 'start-to-finish';

/**
 * With lag l: the named end of `after` is no earlier than the named end of `before`, plus l. A working lag other
 * than 0 asks for l working minutes between the two.
 */
export interface Link {
  before: number;
  after: number;
  relation: Relation;
  /** Minutes, may be negative. */
  lag: number;
  /** Minutes inside turnouts, or minutes of the calendar. */
  lagKind: 'working' | 'elapsed';
}

/** A person already told to be on this task at this turnout. A firm one must stay; others are kept where it costs nothing. */
export interface Posting {
  task: number;
  turnout: number;
  person: number;
  firm: boolean;
}

export interface Aim {
  /** Start of the lift slot to be made. */
  gate: Minute;
  /** Starts of all lift slots, the gate among them, in order of time. */
  slots: Minute[];
}
