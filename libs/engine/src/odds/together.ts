import { normalAt, normalBelow } from '../normal.js';

/**
 * People who come or stay away together: the weather, a shared car, the ferry. One common factor of a turnout (as in
 * Vasicek 1987, from memory): a person comes when sqrt(r) Z + sqrt(1 - r) E lies below the normal quantile of their
 * chance, with Z the turnout's and E their own, both standard normal. Everybody's chance by itself stays what it is;
 * only their togetherness r changes. Given Z they are independent, so the exact odds are an integral over Z.
 */

/**
 * Averages what holds for independent people over the turnout's common factor.
 * @param chances 0..1 each
 * @param togetherness 0 independent, towards 1 all or nobody
 * @param oddsWith exact odds for chances of people who come independently
 */
export function togetherOdds(
  chances: readonly number[],
  togetherness: number,
  oddsWith: (chances: number[]) => number,
): number {
  if (togetherness < 0 || togetherness >= 1)
    throw new RangeError(`Togetherness is 0 up to but not 1, not ${togetherness}`);
  if (togetherness === 0) return oddsWith([...chances]);
  const given = chances.map((chance) => chancesGiven(chance, togetherness));
  return factorOf(togetherness).grid.reduce(
    (sum, { weight }, k) => sum + weight * oddsWith(given.map((row) => row[k])),
    0,
  );
}

/** A turnout's common factor, and what is known of it. */
interface Factor {
  togetherness: number;
  /** Its values, with weights that add up to 1. */
  grid: { z: number; weight: number }[];
  /** Chances of people at each of its values. */
  rows: Map<number, readonly number[]>;
}

/** The last one asked for is kept: a week asks for it, and for the same few chances, thousands of times. */
let kept: Factor | null = null;

function factorOf(togetherness: number): Factor {
  if (kept?.togetherness === togetherness) return kept;
  // Equal steps sum a function that dies off like this one to machine precision, once they are fine beside the width
  // at which the chances turn (Trefethen and Weideman 2014, from memory).
  const step = Math.min(0.5, Math.sqrt((1 - togetherness) / togetherness) / 4);
  const grid: Factor['grid'] = [];
  for (let z = -reach; z <= reach; z += step) grid.push({ z, weight: Math.exp(-0.5 * z * z) });
  const whole = grid.reduce((sum, { weight }) => sum + weight, 0);
  kept = {
    togetherness,
    grid: grid.map(({ z, weight }) => ({ z, weight: weight / whole })),
    rows: new Map(),
  };
  return kept;
}

function chancesGiven(chance: number, togetherness: number): readonly number[] {
  const { grid, rows } = factorOf(togetherness);
  const known = rows.get(chance);
  if (known) return known;
  const cut = normalAt(chance);
  const [shared, alone] = [Math.sqrt(togetherness), Math.sqrt(1 - togetherness)];
  const row = grid.map(({ z }) =>
    Number.isFinite(cut) ? normalBelow((cut - shared * z) / alone) : Number(cut > 0),
  );
  if (rows.size >= mostRows) rows.clear();
  rows.set(chance, row);
  return row;
}

const mostRows = 1_000;

/** Standard deviations looked at to both sides: e^-32 is left beyond. */
const reach = 8;
