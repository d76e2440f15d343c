import { STARTING_BOOK } from '../methods/book/book.js';
import { type MethodBook } from '../methods/method.js';
import { type NamedRate, type Rate } from '../methods/rates.js';
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
  const rate = (key: string): Rate => usualRate(book, key);
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

/** A rate at the usual care; the starting book's where the yard's own has none of that name. */
function usualRate(book: MethodBook, key: string): Rate {
  const named = (one: NamedRate): boolean => one.key === key;
  const found = book.rates.find(named) ?? STARTING_BOOK.rates.find(named);
  need(found !== undefined, 'book.rates', `there is no rate "${key}"`, 'a rate that the starting book has');
  const { low, likely, high } = found.usual ?? found;
  return { low, likely, high };
}

/**
 * Fastenings an hour for one person at a level of care: saving all goes at the slow rate of pulling, saving the sound
 * ones at the usual one; renewing is cutting the head and punching the stub, one after the other. Common practice, no
 * source.
 */
export function careRate(book: MethodBook, key: string, care: Care): Rate {
  const pulled = usualRate(book, key);
  if (care === 'save sound ones') return pulled;
  if (care === 'save all') return { low: pulled.low * 0.75, likely: pulled.low, high: pulled.likely };
  const [cut, punched] = [usualRate(book, 'nails-cut'), usualRate(book, 'stubs-punched')];
  const both = (point: keyof Rate): number => 1 / (1 / cut[point] + 1 / punched[point]);
  return { low: both('low'), likely: both('likely'), high: both('high') };
}

/** The book with one rate at a level of care; what it is at the usual care is kept beside it. */
export function withCare(book: MethodBook, key: string, care: Care): MethodBook {
  const rates = book.rates.map((one): NamedRate => {
    if (one.key !== key) return one;
    const { usual: _usual, ...rest } = one;
    const usual = usualRate(book, key);
    const rate = careRate(book, key, care);
    return care === 'save sound ones' ? { ...rest, ...usual } : { ...rest, ...rate, usual };
  });
  return { ...book, rates };
}
