/** When somebody can come, in the words of a calendar: days by rule, times of the yard's clock. */

export interface ComingRule {
  /** RFC 5545 rule text, without DTSTART. */
  rule: string;
  startsOn: string;
  /** Last day on which it may occur, or null. */
  untilOn: string | null;
  /** Local time from which and until which on such a day; null means the turnout's own start or end. */
  from: string | null;
  to: string | null;
}

export interface ComingException {
  fromOn: string;
  /** Last day, included. */
  toOn: string;
  /** True: can come on these days besides the rules. False: away. */
  canCome: boolean;
  from: string | null;
  to: string | null;
}

/** A turnout as far as availability looks at it. */
export interface DatedTurnout {
  id: string;
  /** Local day on which it starts. */
  on: string;
  /** Whether the yard is closed that day: then only who says that they come does. Absent for no. */
  isClosed?: boolean;
  /** Epoch milliseconds. */
  startsAt: number;
  endsAt: number;
}

/** When somebody can be at a turnout: one unbroken span inside its times, epoch milliseconds. */
export interface Stay {
  turnoutId: string;
  from: number;
  to: number;
}
