import type { GateRuleName } from './rule-book.js';
import type { YardFacts } from './yard-facts.js';

/** What the gates look at: a person, the work, the day and who is there. No records, no database. */

export interface Hand {
  id: string;
  name: string;
  /** 'YYYY-MM-DD', or null when it was never written down. */
  bornOn: string | null;
  /** Level 0..4 by skill id; absent means none. */
  levels: ReadonlyMap<string, number>;
  cards: readonly HeldCard[];
  /** What parents have said yes to; absent where nobody has looked. Of no meaning for adults. */
  consents?: readonly HeldConsent[];
  /** Most turnouts in a calendar month, as they have said of themselves; null or absent for no cap. */
  turnoutsAMonth?: number | null;
}

/** A parent's yes, for some kinds of work (see `consentKinds`). */
export interface HeldConsent {
  kinds: readonly string[];
  givenOn: string;
  /** The first day on which it does not count; null while it does. */
  withdrawnOn: string | null;
}

export interface HeldCard {
  kindId: string;
  /** Last day on which it counts, or null when it does not lapse. */
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

/** A piece to be lifted by hand or with gear. */
export interface Lift {
  pounds: number;
  /** Above chest height, or on staging. */
  isHigh: boolean;
}

export interface Job {
  id: string;
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
  crewMin: number;
  /** dBA where one stands, as somebody wrote it down; null when nobody has. */
  noiseDba: number | null;
  /** Null when no weight is written down. */
  lift: Lift | null;
}

/** Somebody on a piece of work, with the seat that they fill. */
export interface Seated {
  hand: Hand;
  seat: SeatOnJob;
}

/** Work that somebody does near the time in question; instants in epoch milliseconds. */
export interface Shift {
  startsAt: number;
  endsAt: number;
  isMachine: boolean;
  /** dBA, or null when not known. */
  noiseDba: number | null;
}

export interface Occasion {
  /** Local day at the yard. */
  on: string;
  /** The time on the work, in epoch milliseconds. */
  startsAt: number;
  endsAt: number;
  /** End of the turnout. */
  turnoutEndsAt: number;
  /** Whether it is a watch over her afloat; absent for no. */
  isWatch?: boolean;
  /** Ahead, what can still be put right is a caution; on the day it is a stop. */
  asked: 'ahead' | 'on the day';
  /** Others who are posted to or have taken a place on the same work at the same time. */
  alongside: readonly Seated[];
  /** Others who are posted to or have taken a place anywhere at the same turnout, those alongside included. */
  atTurnout: readonly Hand[];
  /** At how many other turnouts of the same month they have a place; absent for none. */
  turnoutsThatMonth?: number;
  /** What the same person does else within a day and a half of it. */
  shifts: readonly Shift[];
  yard: YardFacts;
  /** Stops that somebody with authority has set aside for this person, work and turnout. */
  setAside: readonly SetAside[];
}

export interface SetAside {
  rule: GateRuleName;
  by: string;
  reason: string;
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
  /** The last day on which a card counted that is held and does not count any more. */
  lapsedOn?: string;
}

export interface Case {
  hand: Hand;
  job: Job;
  seat: SeatOnJob;
  occasion: Occasion;
}

/** One rule: what closes for this person on this work on this day, or nothing. */
export type GateRule = (given: Case) => Finding[];

/** A rule that hangs on who is at the turnout, whatever they do. */
export type TurnoutRule = (given: Pick<Case, 'hand' | 'occasion'>) => Finding[];

/** A rule that hangs on the work, the day and how things stand at the yard, whoever would be on it. */
export type WorkRule = (given: Pick<Case, 'job' | 'occasion'>) => Finding[];

export type { GateRuleName };
