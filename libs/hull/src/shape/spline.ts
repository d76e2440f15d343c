import { need } from '../refusal.js';

/** A smooth curve through points, as a batten lies: value and slope at any place; straight on beyond its ends. */
export interface Spline {
  at: (t: number) => number;
  slope: (t: number) => number;
}

/** Natural cubic spline through (t, value), t rising. Two points give a straight line. */
export function spline(ts: number[], values: number[]): Spline {
  const n = ts.length;
  need(n >= 2 && n === values.length, 'points', `${n} points make no curve`, 'two or more');
  need(
    ts.every((t, index) => index === 0 || t > ts[index - 1]),
    'points',
    'places do not rise',
    'places in order, each once',
  );
  const bend = bends(ts, values);
  const span = (t: number): number => {
    let low = 0;
    let high = n - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (ts[middle] <= t) low = middle;
      else high = middle;
    }
    return low;
  };
  const slope = (t: number): number => {
    const inside = Math.min(Math.max(t, ts[0]), ts[n - 1]);
    const i = span(inside);
    const h = ts[i + 1] - ts[i];
    const [a, b] = [(ts[i + 1] - inside) / h, (inside - ts[i]) / h];
    return (
      (values[i + 1] - values[i]) / h + (h / 6) * (-(3 * a * a - 1) * bend[i] + (3 * b * b - 1) * bend[i + 1])
    );
  };
  const at = (t: number): number => {
    const inside = Math.min(Math.max(t, ts[0]), ts[n - 1]);
    const i = span(inside);
    const h = ts[i + 1] - ts[i];
    const [a, b] = [(ts[i + 1] - inside) / h, (inside - ts[i]) / h];
    const on =
      a * values[i] +
      b * values[i + 1] +
      ((a ** 3 - a) * bend[i] + (b ** 3 - b) * bend[i + 1]) * ((h * h) / 6);
    return on + slope(t) * (t - inside);
  };
  return { at, slope };
}

/** Second derivatives at the points, 0 at both ends (tridiagonal equations, solved forward and back). */
function bends(ts: number[], values: number[]): number[] {
  const n = ts.length;
  const upper = new Array<number>(n).fill(0);
  const right = new Array<number>(n).fill(0);
  for (let i = 1; i < n - 1; i += 1) {
    const [before, after] = [ts[i] - ts[i - 1], ts[i + 1] - ts[i]];
    const pull = 6 * ((values[i + 1] - values[i]) / after - (values[i] - values[i - 1]) / before);
    const pivot = 2 * (before + after) - before * upper[i - 1];
    upper[i] = after / pivot;
    right[i] = (pull - before * right[i - 1]) / pivot;
  }
  const bend = new Array<number>(n).fill(0);
  for (let i = n - 2; i >= 1; i -= 1) bend[i] = right[i] - upper[i] * bend[i + 1];
  return bend;
}
