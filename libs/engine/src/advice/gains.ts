import type { Minute } from '../problem.js';

/** What the same futures gain by a change. */
export interface Gains {
  /** Odds of the gate gained, with the standard error of the difference. */
  oddsGained: { odds: number; error: number };
  /** Mean calendar minutes by which ready is earlier, with its standard error. */
  minutesGained: { minutes: number; error: number };
}

/** @param base the ready minute of each future; those of `with_` met the same luck one by one */
export function gainsOf(
  base: Int32Array,
  with_: Int32Array,
  { gate, horizon }: { gate: Minute; horizon: Minute },
): Gains {
  const n = base.length;
  let gained = 0;
  let changedOdds = 0;
  let sum = 0;
  let square = 0;
  for (let f = 0; f < n; f++) {
    const step = Number(with_[f] <= gate) - Number(base[f] <= gate);
    gained += step;
    changedOdds += step * step;
    // Never is as late as the turnouts go.
    const earlier = Math.min(base[f], horizon) - Math.min(with_[f], horizon);
    sum += earlier;
    square += earlier * earlier;
  }
  const error = (total: number, squares: number) =>
    Math.sqrt(Math.max(0, squares / n - (total / n) ** 2) / Math.max(1, n - 1));
  return {
    oddsGained: { odds: gained / n, error: error(gained, changedOdds) },
    minutesGained: { minutes: sum / n, error: error(sum, square) },
  };
}

/**
 * By how many minutes a percentile of ready is earlier. The standard error is that of batch means: the same futures in
 * batches, each with a difference of its own.
 */
export function percentileGained(
  base: Int32Array,
  with_: Int32Array,
  { p, horizon }: { p: number; horizon: Minute },
): { minutes: number; error: number } {
  const gained = (from: number, to: number) =>
    at(base.slice(from, to), p, horizon) - at(with_.slice(from, to), p, horizon);
  const size = Math.floor(base.length / BATCHES);
  if (size === 0) return { minutes: gained(0, base.length), error: Infinity };
  const all = Array.from({ length: BATCHES }, (_, b) => gained(b * size, (b + 1) * size));
  const mean = all.reduce((sum, one) => sum + one, 0) / BATCHES;
  const variance = all.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (BATCHES - 1);
  return { minutes: gained(0, base.length), error: Math.sqrt(variance / BATCHES) };
}

const BATCHES = 20;

function at(ready: Int32Array, p: number, horizon: Minute): Minute {
  const rank = Math.max(0, Math.ceil(p * ready.length - 1e-9) - 1);
  return Math.min(ready.sort()[rank], horizon);
}
