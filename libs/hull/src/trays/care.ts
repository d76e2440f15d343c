import { STARTING_BOOK } from '../methods/book/book.js';
import { type MethodBook } from '../methods/method.js';
import { type NamedRate } from '../methods/rates.js';
import { need, needWhole } from '../refusal.js';

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
export function careChoices(
  count: number,
  unsoundHoles: number,
  book: MethodBook = STARTING_BOOK,
): CareChoice[] {
  needWhole(count, 'count', 0);
  const rate = (key: string): NamedRate => {
    const found = book.rates.find((one) => one.key === key);
    need(
      found !== undefined,
      'book.rates',
      `there is no rate "${key}"`,
      'a book with the rates it started with',
    );
    return found;
  };
  const driving = count / rate('nails-driven').likely;
  const level = (care: Care, out: number, scrap: number, spoiled: number): CareChoice => {
    const kept = Math.round(count * (1 - scrap));
    return {
      care,
      personHours: out + kept / rate('nails-cleaned').likely + driving,
      oldNailsKept: kept,
      toBuy: count - kept,
      newHolesInKept: Math.round(count * Math.min(unsoundHoles + spoiled, 1)),
    };
  };
  const cutting = count / rate('nails-cut').likely + count / rate('stubs-punched').likely;
  return [
    level('save all', count / rate('nails-pulled').low, 0.2, 0),
    level('save sound ones', count / rate('nails-pulled').likely, 0.35, 0),
    // Punching a stub widens its hole: each is plugged and bored anew.
    level('renew', cutting, 1, 1),
  ];
}
