import { needWhole } from '../refusal.js';
import { RATES } from '../methods/rates.js';

/** How carefully a group of fastenings is treated; the shipwright chooses with all three side by side. */
export type Care = 'save all' | 'save sound ones' | 'renew';

export interface CareChoice {
  care: Care;
  /** Pulling or cutting, cleaning and grading, driving. */
  personHours: number;
  /** Old nails that go back. */
  oldNailsKept: number;
  toBuy: number;
  /** New holes in kept timber: nails that are new go into old holes where those are sound. */
  newHolesInKept: number;
}

/**
 * Hours and old material of the three levels of care for so many fastenings. Saving all is pulling at the slow rate
 * with a scrap share at the lower end of what is usual, renewing is cutting and punching; the odds of making the
 * gate come from a forecast with each choice's hours. Common practice, no source.
 * @param unsoundHoles share of holes that have to be plugged and bored anew even when the nail comes out whole.
 */
export function careChoices(count: number, unsoundHoles: number): CareChoice[] {
  needWhole(count, 'count', 0);
  const hours = (one: number, rate: number): number => one / rate;
  const driving = hours(count, RATES.nailsDriven.likely);
  const level = (care: Care, out: number, scrap: number, spoiled: number): CareChoice => {
    const kept = Math.round(count * (1 - scrap));
    return {
      care,
      personHours: out + hours(kept, RATES.nailsCleaned.likely) + driving,
      oldNailsKept: kept,
      toBuy: count - kept,
      newHolesInKept: Math.round(count * Math.min(unsoundHoles + spoiled, 1)),
    };
  };
  const cutting = hours(count, RATES.nailsCut.likely) + hours(count, RATES.stubsPunched.likely);
  return [
    level('save all', hours(count, RATES.nailsPulled.low), 0.2, 0),
    level('save sound ones', hours(count, RATES.nailsPulled.likely), 0.35, 0),
    // Punching a stub widens its hole: each is plugged and bored anew.
    level('renew', cutting, 1, 1),
  ];
}
