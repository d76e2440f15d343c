import { roughlyAt } from '../normal.js';
import type { Beta, Gamma } from './beliefs.js';

/**
 * Chance without state. A number is drawn by mixing a salt of the future with a salt of the thing that it is drawn
 * for, so that the same thing meets the same luck in the same future whatever else of the problem has changed
 * (common random numbers).
 */

/** Mixes 32 bits (finalizer of MurmurHash3, Appleby; from memory). */
export function mix(value: number): number {
  let h = value | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}

/** A salt for something with a name and a number. */
export function saltOf(name: string, number = 0): number {
  let h = 0x811c9dc5;
  for (let k = 0; k < name.length; k++) h = Math.imul(h ^ name.charCodeAt(k), 0x01000193);
  return mix(h ^ mix(number + 0x3c6ef372));
}

/** Entries of a table that is looked up with the upper bits of a mixed number. */
export const TABLE_BITS = 12;
const SIZE = 1 << TABLE_BITS;
/** How far to shift a mixed number to look into a table. */
export const TABLE_SHIFT = 32 - TABLE_BITS;

/** Quantiles of the standard normal at the middles of 4,096 equal shares. */
export const NORMAL: Float64Array = quantiles((y) => -0.5 * y * y, 0, 1);

/** Quantiles of a Beta, over the logit so that no chance is lost near 0 and 1. */
function betaTable(a: number, b: number): Float64Array {
  const spread = Math.sqrt(1 / a + 1 / b);
  const table = quantiles(
    (y) => -a * Math.log1p(Math.exp(-y)) - b * Math.log1p(Math.exp(y)),
    Math.log(a / b),
    spread,
  );
  return table.map((y) => 1 / (1 + Math.exp(-y)));
}

/** Quantiles of a Gamma, over the logarithm. */
function gammaTable(shape: number, rate: number): Float64Array {
  const middle = Math.log(shape / rate);
  const table = quantiles(
    (y) => shape * (y - middle) - shape * Math.exp(y - middle),
    middle,
    1 / Math.sqrt(shape),
  );
  return table.map((y) => Math.exp(y));
}

/** Factors with mean 1 and the given relative spread, lognormal. */
function spreadTable(spread: number): Float64Array {
  const variance = Math.log(1 + spread * spread);
  const sigma = Math.sqrt(variance);
  return NORMAL.map((z) => Math.exp(sigma * z - variance / 2));
}

/**
 * Tables made so far, each once. They cost more than the replay of dozens of futures, so forecasts that are compared
 * share them.
 */
export class Tables {
  readonly #known = new Map<string, Float64Array>();

  gamma({ shape, rate }: Gamma): Float64Array {
    return this.#once(`g ${shape} ${rate}`, () => gammaTable(shape, rate));
  }

  beta(a: number, b: number): Float64Array {
    return this.#once(`p ${a} ${b}`, () => betaTable(a, b));
  }

  /** Normal quantiles of the chances that a Beta gives. */
  betaNormal({ a, b }: Beta): Float64Array {
    return this.#once(`b ${a} ${b}`, () => betaTable(a, b).map(roughlyAt));
  }

  /** Null where nothing is spread. */
  spread(by: number): Float64Array | null {
    return by > 0 ? this.#once(`s ${by}`, () => spreadTable(by)) : null;
  }

  #once(key: string, make: () => Float64Array): Float64Array {
    let found = this.#known.get(key);
    if (!found) this.#known.set(key, (found = make()));
    return found;
  }
}

/**
 * Quantiles of a density that falls off on both sides of a point near its middle (log-concave), by summing it over a
 * fine grid. @param spread rough standard deviation
 */
function quantiles(logDensity: (y: number) => number, middle: number, spread: number): Float64Array {
  const top = logDensity(middle);
  // Far enough out that less than e^-40 of the top is left.
  const reach = (sign: number): number => {
    let d = spread;
    while (logDensity(middle + sign * d) > top - 40 && d < 1e4 * spread) d *= 1.5;
    return middle + sign * d;
  };
  const low = reach(-1);
  const high = reach(1);
  const cells = 4096;
  const step = (high - low) / cells;
  const sum = new Float64Array(cells + 1);
  for (let c = 0; c < cells; c++) sum[c + 1] = sum[c] + Math.exp(logDensity(low + (c + 0.5) * step) - top);
  const table = new Float64Array(SIZE);
  for (let k = 0, c = 0; k < SIZE; k++) {
    const share = ((k + 0.5) / SIZE) * sum[cells];
    while (sum[c + 1] < share) c++;
    table[k] = low + (c + (share - sum[c]) / (sum[c + 1] - sum[c])) * step;
  }
  return table;
}
