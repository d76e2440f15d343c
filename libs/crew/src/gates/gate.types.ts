/** What the gates look at: a person, the work, the day and who is there. No records, no database. */

export interface Hand {
  id: string;
  name: string;
  /** 'YYYY-MM-DD', or null when it was never written down. */
  bornOn: string | null;
  /** Level 0..4 by skill id; absent means none. */
  levels: ReadonlyMap<string, number>;
  cards: readonly HeldCard[];
}

export interface HeldCard {
  kindId: string;
  /** Last day on which the card counts, or null when it does not lapse. */
  expiresOn: string | null;
}

interface Named {
  id: string;
  name: string;
}

export interface SeatOnJob {
  /** Null for a plain hand: nothing is asked but what the work asks of everyone. */
  skill: Named | null;
  /** Least level, 1..4; of no meaning for a plain hand. */
  level: number;
  cards: readonly Named[];
}

export interface Job {
  title: string;
  /** Codes of the hazard list, the ones that the work brings with it included. */
  hazards: readonly string[];
  /** Cards that everyone on the work must hold. */
  cards: readonly Named[];
  leastAge: number | null;
  /** The skills that its seats ask for: who has none of them above level 1 is a learner there. */
  seatSkills: readonly Named[];
  /** True where pieces are taken off the hull or frames drawn: a part of the vessel is dismantled. */
  dismantles: boolean;
}

export interface Occasion {
  /** Local day at the yard. */
  on: string;
  /** Others who are posted to or have taken a place on the same work at the same time. */
  alongside: readonly Hand[];
  /** Others who are posted to or have taken a place anywhere at the same turnout, those alongside included. */
  atTurnout: readonly Hand[];
}

/**
 * A gate that closes. Stop: the place can't be taken. Caution: it can, and this is to be read first.
 */
export interface Finding {
  rule: GateRuleName;
  weight: 'stop' | 'caution';
  /** One sentence to the person. */
  words: string;
  /** What would open the gate, or null when nothing that the crew can do would. */
  remedy: string | null;
  /** Citation, or 'common practice, no source'. */
  basis: string;
}

export type GateRuleName =
  | 'skill'
  | 'card'
  | 'card-lapses-soon'
  | 'age-unknown'
  | 'least-age'
  | 'age-for-hazard'
  | 'teardown'
  | 'visits-only'
  | 'kept-in-sight'
  | 'adult-alongside'
  | 'two-adults'
  | 'learner-alone';

export interface Case {
  hand: Hand;
  job: Job;
  seat: SeatOnJob;
  occasion: Occasion;
}

/** One rule: what closes for this person on this work on this day, or nothing. */
export type GateRule = (given: Case) => Finding[];

export const commonPractice = 'common practice, no source';
