import { caution, onTheDay } from './found.js';
import type { Finding, GateRule } from './gate.types.js';

/** Pounds to a carrier. Common practice. */
const poundsEach = 35;
/** More carriers than this get in one another's way: lifting gear. Common practice. */
export const mostCarriers = 4;

/** One lift as the NIOSH equation sees it; inches, degrees. One person, two hands: nothing else. */
export interface LiftPose {
  /** How far out from the ankles; below 10 counts as 10. */
  horizontal: number;
  /** Height of the hands at the start, 0 to 70. */
  vertical: number;
  /** How far it travels up or down; below 10 counts as 10. */
  travel: number;
  /** Degrees of turning, 0 to 135. */
  turn: number;
  /** Multipliers of the tables for how often, and for the grip; 0 to 1. */
  frequency: number;
  grip: number;
}

/**
 * Recommended weight limit in pounds: 51 HM VM DM AM FM CM. NIOSH 94-110; AM from memory. Zero outside its ranges.
 */
export function recommendedPounds(pose: LiftPose): number {
  const { horizontal, vertical, travel, turn, frequency, grip } = pose;
  if (horizontal > 25 || vertical < 0 || vertical > 70 || travel > 70 || turn > 135) return 0;
  const hm = 10 / Math.max(10, horizontal);
  const vm = 1 - 0.0075 * Math.abs(vertical - 30);
  const dm = 0.82 + 1.8 / Math.max(10, travel);
  const am = 1 - 0.0032 * turn;
  return 51 * hm * vm * dm * am * frequency * grip;
}

export function carriersFor(pounds: number): number {
  return Math.ceil(pounds / poundsEach);
}

/** How many carry, and what one person alone may not. */
export const carriersGate: GateRule = ({ job, occasion }): Finding[] => {
  if (job.lift === null) return [];
  const { pounds } = job.lift;
  const carriers = carriersFor(pounds);
  const there = occasion.alongside.length + 1;
  const findings: Finding[] = [
    caution(
      'carriers',
      carriers > mostCarriers || job.lift.isHigh
        ? `The heaviest piece is ${Math.round(pounds)} lb${job.lift.isHigh ? ', above chest height or on staging' : ''}: lifting gear, not people.`
        : `The heaviest piece is ${Math.round(pounds)} lb: ${carriers === 1 ? 'one carrier' : `${carriers} carriers`}, one voice that gives the word.`,
    ),
  ];
  if (carriers <= mostCarriers && there < carriers && occasion.asked === 'on the day')
    findings.push(
      onTheDay(occasion.asked)(
        'carriers',
        `${carriers} carry this, and ${there} would be on it.`,
        'Add to the crew, or use lifting gear.',
      ),
    );
  return findings;
};
