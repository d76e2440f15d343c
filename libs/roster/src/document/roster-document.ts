import type { HoursDocument } from '../hours/hours-document.js';
import type { TurnoutBook } from './turnout-book.js';
import type { PlaceState } from '../places/place.entity.js';
import type { TurnoutKind } from '../turnouts/turnout.entity.js';

/** The roster's part of a yard document. Things are named by `ref`, turnouts by their day and start. */
export interface RosterDocument {
  turnoutRules: {
    ref: string;
    rule: string;
    startsOn: string;
    untilOn: string | null;
    startTime: string;
    endTime: string;
  }[];
  closedDays: { on: string; reason: string | null }[];
  singleTurnouts: {
    on: string;
    startTime: string;
    endTime: string;
    note: string | null;
    /** Only where it is no usual turnout. */
    kind?: TurnoutKind | undefined;
  }[];
  cancelledTurnouts: {
    on: string;
    startTime: string;
    reason: string;
    /** When it was called off; left out where that was as it would have begun. */
    at?: string | undefined;
  }[];
  places: {
    on: string;
    startTime: string;
    task: string;
    /** Local times, or null when the place lasts as long as the turnout. */
    from: string | null;
    to: string | null;
    volunteer: string | null;
    skill: string | null;
    level: number | null;
    /** Only on an all-hands day: what its holder does, and the card that this asks for. */
    role?: string | undefined;
    card?: string | undefined;
    state: PlaceState;
    why: string | null;
    /** Beside whom they learn; only where they do. */
    teacher?: string | undefined;
    /** When it was taken and left, and why left; only where it was. */
    takenAt?: string | undefined;
    leftAt?: string | undefined;
    leftReason?: string | undefined;
  }[];
  /** Older documents have neither of the two: what is there is kept as far as it can be. */
  hours?: HoursDocument | undefined;
  turnoutBook?: TurnoutBook | undefined;
}

/** Ids of the rows that a roster names, by their document keys. */
export interface RosterRefs {
  tasks: ReadonlyMap<string, string>;
  volunteers: ReadonlyMap<string, string>;
  skills: ReadonlyMap<string, string>;
  cardKinds: ReadonlyMap<string, string>;
}
