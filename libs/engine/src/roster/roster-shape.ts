/**
 * Who takes which berth in a week. A berth is what one person does at one turnout: one seat, or several one after the
 * other that the plan gives to the same hands. Indices are the problem's own.
 */
export interface RosterProblem {
  people: RosterPerson[];
  berths: Berth[];
}

export interface RosterPerson {
  /** Turnouts of which they come to only so many: a month's, a week's. A turnout is in one of them at most. */
  quotas: { turnouts: number[]; most: number }[];
}

export interface Berth {
  turnout: number;
  /** Berths are filled in order of rank, the lowest first: no later one costs an earlier one its hands. */
  rank: number;
  /** Who may take it; the gates are asked before. */
  may: Candidate[];
  /** Who takes it whatever it costs, as the coordinator has it; before all others. */
  fixed: number | null;
}

export interface Candidate {
  person: number;
  terms: CostTerm[];
}

/** What speaks against a person on a berth: whole points of 0 or more. */
export interface CostTerm {
  kind: CostKind;
  cost: number;
}

export type CostKind =
  /** Others were asked already. */
  | 'asked before'
  /** Somebody has said yes to learning there beside another. */
  | 'ends a lesson'
  /** Has not been on this work before, and others have. */
  | 'new to it'
  /** Has had dull work before. */
  | 'dull again'
  /** Has a scarce skill that this does not ask for. */
  | 'scarce'
  /** Can do more than is asked here. */
  | 'more than asked'
  /** Is learning, and counts for less. */
  | 'slower'
  /** Has not wished to learn it, where others may have. */
  | 'has not wished'
  /** The plan has somebody else. */
  | 'not as planned';

export interface Roster {
  seated: Seated[];
  /** Berths that nobody is left for, in order of rank. */
  unfilled: number[];
  /** Points of all together. */
  cost: number;
}

export interface Seated {
  berth: number;
  person: number;
  terms: CostTerm[];
  /** The cheapest roster that fills the same berths without this person here; null where there is none. */
  instead: Instead | null;
}

export interface Instead {
  /** Points that it would cost more. */
  more: number;
  /** Who would change: first who comes to this berth, then who follows where they are missing. */
  moves: { berth: number; person: number }[];
}
