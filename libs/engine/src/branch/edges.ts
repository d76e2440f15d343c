import type { Literals, Trail } from './trail.js';

/** A difference between two variables: `after` is at least `before` plus `gap`, always or only where a 0/1 variable is 1. */
export interface Difference {
  before: number;
  after: number;
  gap: number;
  /** The variable and the value it must have for the difference to bind. */
  when?: { variable: number; is: 0 | 1 };
}

/**
 * Differences, each as two edges from side to side: a lower bound of `before` pushes that of `after`, an upper bound of
 * `after` that of `before`. An edge that may bind or not pushes only where it binds; where it can't hold it is told so.
 */
export class Edges {
  readonly #trail: Trail;
  readonly #to: Int32Array;
  readonly #from: Int32Array;
  readonly #gap: Int32Array;
  /** The literal on which an edge hangs, side -1 where it always binds. */
  readonly #whenSide: Int32Array;
  readonly #whenValue: Int32Array;
  /** Edges out of a side, and edges that hang on it, as rows. */
  readonly #outAt: Int32Array;
  readonly #out: Int32Array;
  readonly #hangAt: Int32Array;
  readonly #hang: Int32Array;
  /** What the trail knows a push by, and the other way round. */
  readonly #pushed: number;
  readonly #lifted: number;

  constructor(trail: Trail, differences: Difference[], pushed: number, lifted: number) {
    this.#trail = trail;
    this.#pushed = pushed;
    this.#lifted = lifted;
    const edges = differences.flatMap(({ before, after, gap, when }) => {
      const side = when ? 2 * when.variable + 1 - when.is : -1;
      const value = when ? when.is : 0;
      return [
        { from: 2 * before, to: 2 * after, gap, side, value },
        { from: 2 * after + 1, to: 2 * before + 1, gap, side, value },
      ];
    });
    const sides = trail.bound.length;
    this.#from = Int32Array.from(edges, (edge) => edge.from);
    this.#to = Int32Array.from(edges, (edge) => edge.to);
    this.#gap = Int32Array.from(edges, (edge) => edge.gap);
    this.#whenSide = Int32Array.from(edges, (edge) => edge.side);
    this.#whenValue = Int32Array.from(edges, (edge) => edge.value);
    [this.#outAt, this.#out] = rowsBy(this.#from, sides);
    [this.#hangAt, this.#hang] = rowsBy(this.#whenSide, sides);
  }

  /** Pushes on what a rise of this side asks for. */
  propagate(side: number): boolean {
    const { bound } = this.#trail;
    const now = bound[side];
    for (let q = this.#outAt[side], end = this.#outAt[side + 1]; q < end; q++) {
      const e = this.#out[q];
      const to = this.#to[e];
      const wanted = now + this.#gap[e];
      if (bound[to] < wanted && !this.#push(e, to, wanted)) return false;
    }
    for (let q = this.#hangAt[side], end = this.#hangAt[side + 1]; q < end; q++) {
      const e = this.#hang[q];
      if (now < this.#whenValue[e]) continue;
      const to = this.#to[e];
      const wanted = bound[this.#from[e]] + this.#gap[e];
      if (bound[to] < wanted && !this.#trail.set(to, wanted, this.#pushed, e)) return false;
    }
    return true;
  }

  /** Why an edge pushed a side to a value. */
  explainPush(e: number, value: number, out: Literals): void {
    out.add(this.#from[e], value - this.#gap[e]);
    if (this.#whenSide[e] >= 0) out.add(this.#whenSide[e], this.#whenValue[e]);
  }

  /** Why an edge can't bind, as it was before entry `at`. */
  explainLift(e: number, at: number, out: Literals): void {
    const from = this.#from[e];
    const value = this.#trail.boundBefore(from, at);
    out.add(from, value);
    out.add(this.#to[e] ^ 1, 1 - value - this.#gap[e]);
  }

  #push(e: number, to: number, wanted: number): boolean {
    const trail = this.#trail;
    const { bound } = trail;
    const when = this.#whenSide[e];
    if (when < 0) return trail.set(to, wanted, this.#pushed, e);
    const value = this.#whenValue[e];
    if (bound[when] >= value) return trail.set(to, wanted, this.#pushed, e);
    // Not known to bind: where it would leave no room, it doesn't.
    if (wanted <= -bound[to ^ 1] || bound[when ^ 1] >= 1 - value) return true;
    return trail.set(when ^ 1, 1 - value, this.#lifted, e);
  }
}

/** Indices of `keys` in rows by key; those below 0 are left out. */
function rowsBy(keys: Int32Array, size: number): [Int32Array, Int32Array] {
  const at = new Int32Array(size + 1);
  for (const key of keys) if (key >= 0) at[key + 1]++;
  for (let k = 0; k < size; k++) at[k + 1] += at[k];
  const rows = new Int32Array(at[size]);
  const put = at.slice();
  keys.forEach((key, k) => {
    if (key >= 0) rows[put[key]++] = k;
  });
  return [at, rows];
}
