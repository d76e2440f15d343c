import type { Odds } from '../forecast/forecast-shape.js';
import type { Minute } from '../problem.js';
import type { Gains } from './gains.js';

/** One thing that people could do. Never a structural or safety limit: those are no kind of change. */
export type Change =
  /** One more person with these skills, expected at these turnouts. */
  | { kind: 'recruit'; skills: { skill: number; level: number }[]; turnouts: number[]; showUp: number }
  /** A trains B: at these turnouts both are away from the work; after the last one B has the level. */
  | { kind: 'train'; person: number; skill: number; level: number; trainer: number; turnouts: number[] }
  /** Further turnouts, at which the people named are expected. */
  | { kind: 'turnouts'; spans: { start: Minute; end: Minute }[]; people: number[] }
  | { kind: 'tool'; tool: number; more: number }
  /** Tasks taken out of scope; what followed them follows what they followed. */
  | { kind: 'drop'; tasks: number[] }
  | { kind: 'relax'; wish: RelaxableWish }
  /** Stock there so many minutes earlier. */
  | { kind: 'order earlier'; task: number; by: Minute };

/** Wishes that may be given up. The caller says which links and dates are mere wishes. */
export type RelaxableWish =
  | { kind: 'week cap'; person: number }
  | { kind: 'turnout cap'; person: number }
  | { kind: 'not before'; task: number }
  | { kind: 'link'; link: number };

export interface Advice {
  futures: number;
  /** As things stand. */
  base: { gate: Odds; p50: Minute | null; p80: Minute | null };
  /** Best first: by odds gained where that is certain, then by days gained. */
  ranked: AdviceItem[];
  /** How many candidates were thought of and how many of them simulated in full. */
  screened: { candidates: number; simulated: number };
}

export interface AdviceItem extends Gains {
  /** Index into the candidates given. */
  candidate: number;
  change: Change;
  gate: Odds;
  p50: Minute | null;
  p80: Minute | null;
}
