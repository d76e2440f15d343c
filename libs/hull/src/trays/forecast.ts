import { need, needWhole } from '../refusal.js';
import { type TrayBalance } from './balance.js';

/**
 * Before any nail is graded, between 20 and 50 in 100 are thought to be scrap (from memory); the starting belief is
 * as strong as ten graded nails, 3.5 of them scrap.
 */
const BEFORE = { scrap: 3.5, sound: 6.5 } as const;

export interface ShortfallForecast {
  /** Share thought to be scrap, from what is graded so far. */
  scrapShare: number;
  /** Nails wanting beyond those sound or bought, when nothing more is bought. */
  likely: number;
  /** No more than this in nine cases of ten. */
  nineInTen: number;
}

/**
 * Nails that will be wanting to drive so many, by the scrap seen so far: a beta-binomial forecast of the nails not
 * graded yet, exact.
 * @param toDrive fastenings to be driven in all, those already driven among them.
 */
export function forecastShortfall(lot: TrayBalance, toDrive: number): ShortfallForecast {
  needWhole(toDrive, 'toDrive', lot.driven);
  const a = BEFORE.scrap + lot.scrapped;
  const b = BEFORE.sound + lot.sound;
  const coming = lot.stillIn + lot.notGraded;
  const have = lot.sound + lot.bought + coming;
  const wanting = (scrap: number): number => Math.max(toDrive - (have - scrap), 0);
  return {
    scrapShare: a / (a + b),
    likely: wanting(quantile(coming, a, b, 0.5)),
    nineInTen: wanting(quantile(coming, a, b, 0.9)),
  };
}

/** Least k with P(scrap <= k) >= chance, scrap of n beta-binomial with a and b. */
function quantile(n: number, a: number, b: number, chance: number): number {
  let term = 1;
  for (let index = 0; index < n; index += 1) term *= (b + index) / (a + b + index);
  let sum = term;
  let k = 0;
  while (sum < chance - 1e-12 && k < n) {
    term *= ((n - k) / (k + 1)) * ((k + a) / (n - k - 1 + b));
    sum += term;
    k += 1;
  }
  return k;
}

export type BuyBy =
  { kind: 'nothing to buy' } | { kind: 'by'; day: number } | { kind: 'too late'; daysLate: number };

/** Last day to order, as a day number like those given. */
export function buyBy(
  shortfall: number,
  neededOn: number,
  leadDays: number,
  spareDays: number,
  today: number,
): BuyBy {
  need(leadDays >= 0 && spareDays >= 0, 'leadDays', 'days run backwards', '0 or more');
  if (shortfall <= 0) return { kind: 'nothing to buy' };
  const day = neededOn - leadDays - spareDays;
  return day >= today ? { kind: 'by', day } : { kind: 'too late', daysLate: today - day };
}
