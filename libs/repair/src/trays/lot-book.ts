import { forecastShortfall, lotBalance, type ShortfallForecast, type TrayBalance } from '@ribband/hull';
import type { Lot } from './lot.entity.js';

/** How the fastenings of one kind stand in all their trays together. */
export interface KindStanding {
  fastening: string;
  balance: TrayBalance;
  /** Fastenings that go back in all: as many as there were, less the stubs that stay. */
  toDrive: number;
  /** Bought, and in no tray yet. */
  inLots: number;
  forecast: ShortfallForecast;
  /** What is missing or open, as sentences; none when all is accounted for. */
  wanting: string[];
}

/**
 * Sums the trays of a kind.
 * @param leftInPlace stubs of this kind that stay for a reason
 * @param lots those that match this kind
 * @param taken how many of each lot were put into trays, by its id
 */
export function kindStanding(
  fastening: string,
  trays: readonly { name: string; balance: TrayBalance; off: number | null }[],
  leftInPlace: number,
  lots: readonly Lot[],
  taken: ReadonlyMap<string, number>,
): KindStanding {
  const balance = lotBalance(trays.map((tray) => tray.balance));
  const toDrive = Math.max(balance.inPlace - leftInPlace, balance.driven);
  const inLots = lots.reduce((sum, lot) => sum + lot.count - (taken.get(lot.id) ?? 0), 0);
  const forecast = forecastShortfall({ ...balance, bought: balance.bought + inLots }, toDrive);
  const wanting = trays.flatMap(({ name, off }) =>
    off === null || off === 0 ? [] : [`Tray ${name} was counted ${offInWords(off)}.`],
  );
  if (balance.notGraded > 0) wanting.push(`${balance.notGraded} are not graded yet.`);
  if (balance.stubsWaiting > 0)
    wanting.push(`${balance.stubsWaiting} stubs wait to be punched or bored out.`);
  if (balance.lost > 0) wanting.push(`${balance.lost} are lost.`);
  if (forecast.nineInTen > 0)
    wanting.push(
      forecast.likely === forecast.nineInTen
        ? `${forecast.likely} more will be wanted.`
        : `${forecast.likely} more will likely be wanted, at most ${forecast.nineInTen} in nine cases of ten.`,
    );
  return { fastening, balance, toDrive, inLots, forecast, wanting };
}

/** "9 short", "2 over" */
export const offInWords = (off: number): string => (off < 0 ? `${-off} short` : `${off} over`);
