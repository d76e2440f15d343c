import { commonPractice } from './rule-book.js';

/** Ages by the organisation's word, in whole years. */
export interface AgeTable {
  /** Below it one comes only as a visitor, with a parent. */
  visitorsBelow: number;
  /** Below it an adult keeps one in sight. */
  inSightBelow: number;
  /** From it on one takes down parts of the vessel. */
  teardownFrom: number;
  /** By hazard; one that is not named sets no age of its own. */
  byHazard: Readonly<Partial<Record<string, number>>>;
}

interface HazardAge {
  age: number;
  basis: string;
}

/**
 * Least age by hazard. The federal orders bind employers; yards and insurers commonly ask the same of volunteers.
 * A hazard that is not named here sets no age of its own.
 */
export const hazardAges: Readonly<Partial<Record<string, HazardAge>>> = {
  machine: { age: 18, basis: '29 CFR 570.55 and 570.65' },
  'hot-work': { age: 18, basis: commonPractice },
  lead: { age: 18, basis: commonPractice },
  asbestos: { age: 18, basis: commonPractice },
  crush: { age: 18, basis: '29 CFR 570.58 where a hoist is used; else common practice, no source' },
  fall: { age: 18, basis: commonPractice },
  'enclosed-space': { age: 18, basis: commonPractice },
  electric: { age: 18, basis: commonPractice },
  drowning: { age: 18, basis: commonPractice },
  fatigue: { age: 18, basis: commonPractice },
  burn: { age: 18, basis: commonPractice },
  lifting: { age: 16, basis: commonPractice },
  strain: { age: 16, basis: commonPractice },
  chemical: { age: 16, basis: commonPractice },
  noise: { age: 16, basis: commonPractice },
  eye: { age: 16, basis: commonPractice },
};

/** Age below which somebody comes only as a visitor, with a parent. Common practice. */
export const visitorsBelow = 14;

/** The table until an organisation sets its own. */
export const usualAges: AgeTable = {
  visitorsBelow,
  inSightBelow: 16,
  teardownFrom: 18,
  byHazard: Object.fromEntries(Object.entries(hazardAges).map(([hazard, entry]) => [hazard, entry?.age])),
};
