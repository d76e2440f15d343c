/** A rate as far as choosing among several goes. */
export interface RateOf {
  kindId: string | null;
  grantId: string | null;
  /** The first day on which it holds. */
  fromOn: string;
  enteredAt: number;
}

/**
 * The rate that holds for a kind of work and a grant on a day. A grant's own rate goes before the yard's, since some
 * funders set one; then a kind's own before the one for every kind; then the newest day, and of two for the same day
 * the one entered last.
 */
export function rateFor<R extends RateOf>(
  rates: readonly R[],
  wanted: { kindId: string; grantId: string; on: string },
): R | null {
  const closeness = (rate: R): number => (rate.grantId === null ? 0 : 2) + (rate.kindId === null ? 0 : 1);
  const holding = rates.filter(
    (rate) =>
      rate.fromOn <= wanted.on &&
      (rate.kindId === null || rate.kindId === wanted.kindId) &&
      (rate.grantId === null || rate.grantId === wanted.grantId),
  );
  holding.sort(
    (a, b) => closeness(b) - closeness(a) || b.fromOn.localeCompare(a.fromOn) || b.enteredAt - a.enteredAt,
  );
  return holding[0] ?? null;
}

/** What so many minutes are worth, in cents, rounded to the nearest (halves away from nothing). */
export function worth(minutes: number, centsAnHour: number): number {
  const cents = Math.round((Math.abs(minutes) * centsAnHour) / 60);
  return minutes < 0 ? -cents : cents;
}

/** A published value of a volunteer's hour, ready to be taken as a rate. */
export interface PublishedRate {
  year: number;
  area: string;
  centsAnHour: number;
  source: string;
}

const fromPress = 'as told in press copies';
const fromMemory = 'from memory, to be checked against the publisher';

/** Independent Sector's yearly values of volunteer time in the United States, for all kinds of work together. */
export const publishedRates: readonly PublishedRate[] = (
  [
    [2024, 'United States', 3479, fromMemory],
    [2023, 'United States', 3349, fromMemory],
    [2022, 'United States', 3180, fromMemory],
    [2021, 'United States', 2995, fromPress],
    [2020, 'United States', 2854, fromPress],
    [2019, 'United States', 2720, fromPress],
    [2019, 'Washington', 3302, fromPress],
    [2018, 'United States', 2543, fromPress],
    [2015, 'United States', 2356, fromPress],
    [2014, 'United States', 2307, fromPress],
    [2009, 'United States', 2085, fromPress],
    [2008, 'United States', 2025, fromPress],
  ] as const
).map(([year, area, centsAnHour, mark]) => ({
  year,
  area,
  centsAnHour,
  source: `Independent Sector, value of volunteer time ${year}, ${area} (${mark})`,
}));
