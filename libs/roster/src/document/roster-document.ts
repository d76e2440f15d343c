import type { PlaceState } from '../places/place.entity.js';

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
  singleTurnouts: { on: string; startTime: string; endTime: string; note: string | null }[];
  cancelledTurnouts: { on: string; startTime: string; reason: string }[];
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
    state: PlaceState;
    why: string | null;
  }[];
}

/** Ids of the rows that a roster names, by their document keys. */
export interface RosterRefs {
  tasks: ReadonlyMap<string, string>;
  volunteers: ReadonlyMap<string, string>;
  skills: ReadonlyMap<string, string>;
}
