/** The standard normal's distribution function: its series about 0, its continued fraction in the tails. */
export function normalBelow(z: number): number {
  const x = Math.abs(z);
  const density = Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);
  if (x > 4) {
    let f = 0;
    for (let k = 40; k > 0; k--) f = k / (x + f);
    const tail = density / (x + f);
    return z > 0 ? 1 - tail : tail;
  }
  let term = z;
  let sum = z;
  for (let k = 1; Math.abs(term) > 1e-17; k++) {
    term *= (z * z) / (2 * k + 1);
    sum += term;
  }
  return 0.5 + sum * density;
}

const CELLS = 256;
const REACH = 7;
let below: Float64Array | null = null;

/** `normalBelow` out of a table, straight lines between: right to 2e-6, for sums over very many. */
export function roughlyBelow(z: number): number {
  if (!(z > -REACH)) return 0;
  if (!(z < REACH)) return 1;
  below ??= table();
  const at = (z + REACH) * CELLS;
  const k = Math.floor(at);
  return below[k] + (at - k) * (below[k + 1] - below[k]);
}

/** The inverse of `roughlyBelow`, at most `REACH` from 0. */
export function roughlyAt(p: number): number {
  below ??= table();
  let low = 0;
  let high = below.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (below[middle] <= p) low = middle;
    else high = middle;
  }
  const step = below[high] - below[low];
  return (low + (step > 0 ? (p - below[low]) / step : 0.5)) / CELLS - REACH;
}

function table(): Float64Array {
  return Float64Array.from({ length: 2 * REACH * CELLS + 2 }, (_, k) => normalBelow(k / CELLS - REACH));
}

/** The z below which the standard normal lies with chance p; -Infinity for 0, Infinity for 1. */
export function normalAt(p: number): number {
  if (p <= 0) return -Infinity;
  if (p >= 1) return Infinity;
  let low = -8.5;
  let high = 8.5;
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (normalBelow(middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
