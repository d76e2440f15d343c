import type { Hand, Minute, Plan, Problem } from '@ribband/engine';

/** Somebody who is at the yard, as the problem numbers people. */
export interface Present {
  person: number;
  from: Minute;
  to: Minute;
}

/**
 * Somebody let on a task today who lacks what it asks for: a card or an age; a level of skill; somebody beside them who
 * works alone in it; its least crew.
 */
export interface Allowed {
  person: number;
  task: number;
  lacks: 'clearance' | 'skill' | 'company' | 'crew';
}

export interface CallInput {
  /** The yard as it stands this morning; its people, tasks and turnouts are those of the answer. */
  problem: Problem;
  /** The plan in force, in the indices of this problem, or null. */
  warm: Plan | null;
  /** Which turnout is called. */
  turnout: number;
  /** Exactly who came. */
  present: readonly Present[];
  /** Tasks that people were posted to at this turnout. */
  postedTasks: readonly number[];
  /** People whom a gate does not let on a task in this company. */
  barred?: readonly { person: number; task: number }[];
  /** People for whom a named authority has set a rule of a task aside today: what they lack for it, they need not have. */
  allowed?: readonly Allowed[];
  /** Tasks that must wait whoever is there: the hull, a permit, the weather. */
  closed?: readonly number[];
  /** Passes to spend; one gives the plan's own order with the people who came. */
  schedules?: number;
}

/** A piece of work of the called turnout. A crew that changes is given as one stretch a person and seat. */
export interface CalledWork {
  task: number;
  start: Minute;
  end: Minute;
  crew: (Hand & { start: Minute; end: Minute })[];
}
