import { addDays, daysBetween } from '../words/dates.js';

/** One row of the board: the odds of being ready by a day. */
export interface Notch {
  on: string;
  odds: number;
  /** The gate's name where the row is one. */
  gate: string | null;
}

/** Share of a hundred ready days that lie on or before a day. Days past the last turnout are left out of the spread. */
export function oddsBy(spread: readonly string[], day: string): number {
  return spread.filter((ready) => ready <= day).length / 100;
}

/** Most rows that a board has between its ends. */
const mostRows = 14;

/**
 * Rows from just before the first ready day to the last that matters, a week (or two, or more) apart, and one on each
 * gate.
 */
export function notches(
  spread: readonly string[],
  gates: readonly { on: string; name: string }[],
  futures: number,
): Notch[] {
  const days = [...spread, ...gates.map(({ on }) => on)].sort();
  const first = days[0];
  // The last few futures are far off and would make the rest too small to see.
  const late = spread[Math.min(spread.length - 1, 97)] ?? first;
  const last = [late ?? '', ...gates.map(({ on }) => on)].sort().at(-1);
  if (futures === 0 || first === undefined || last === undefined) return [];
  const step = 7 * Math.max(1, Math.ceil(daysBetween(first, last) / 7 / mostRows));
  const rows: Notch[] = [];
  for (let on = addDays(first, -step); on < addDays(last, step); on = addDays(on, step))
    if (!gates.some((gate) => Math.abs(daysBetween(gate.on, on)) < step / 2))
      rows.push({ on, odds: oddsBy(spread, on), gate: null });
  for (const { on, name } of gates) rows.push({ on, odds: oddsBy(spread, on), gate: name });
  return rows.sort((a, b) => a.on.localeCompare(b.on));
}
