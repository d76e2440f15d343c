import type { Literals, Trail } from './trail.js';

/** The values of these sides, added up, are at least so much. A variable's upper side counts it with its sign turned. */
export interface Sum {
  sides: number[];
  least: number;
}

/** Sums of a few small variables, such as people of several kinds on one task. */
export class Sums {
  readonly #trail: Trail;
  readonly #name: number;
  readonly #sums: Int32Array[];
  readonly #least: Int32Array;
  /** By side, the sums that a rise of it makes smaller. */
  readonly #lowers: Int32Array[];
  /** The sum that can't be reached. */
  #failed = 0;

  /** @param name what the trail knows this by */
  constructor(trail: Trail, sums: Sum[], name: number) {
    this.#trail = trail;
    this.#name = name;
    this.#sums = sums.map(({ sides }) => Int32Array.from(sides));
    this.#least = Int32Array.from(sums, ({ least }) => least);
    const lowers: number[][] = Array.from({ length: trail.bound.length }, () => []);
    sums.forEach(({ sides }, k) => {
      for (const side of sides) lowers[side ^ 1].push(k);
    });
    this.#lowers = lowers.map((list) => Int32Array.from(list));
  }

  /** Every sum from the start. */
  propagateAll(): boolean {
    for (let k = 0; k < this.#sums.length; k++) if (!this.#push(k)) return false;
    return true;
  }

  propagate(side: number): boolean {
    const list = this.#lowers[side];
    for (let q = 0; q < list.length; q++) if (!this.#push(list[q])) return false;
    return true;
  }

  /** Why a side got a value in sum k: the others could not give more. */
  explain(k: number, side: number, value: number, at: number, out: Literals): void {
    const trail = this.#trail;
    const sides = this.#sums[k];
    let over = this.#least[k] - value;
    for (let q = 0; q < sides.length; q++) {
      if (sides[q] !== side) over += trail.boundBefore(sides[q] ^ 1, at);
    }
    for (let q = 0; q < sides.length; q++) {
      const other = sides[q] ^ 1;
      if (sides[q] === side) continue;
      const bound = trail.boundBefore(other, at);
      out.add(other, bound - over);
      // What is said of one may be weaker by so much, not of all.
      over = 0;
    }
  }

  explainFailed(out: Literals): void {
    const sides = this.#sums[this.#failed];
    for (let q = 0; q < sides.length; q++) out.add(sides[q] ^ 1, this.#trail.bound[sides[q] ^ 1]);
  }

  #push(k: number): boolean {
    const trail = this.#trail;
    const { bound } = trail;
    const sides = this.#sums[k];
    let spare = -this.#least[k];
    for (let q = 0; q < sides.length; q++) spare -= bound[sides[q] ^ 1];
    if (spare < 0) {
      this.#failed = k;
      trail.failed.side = -1;
      trail.failed.reason = this.#name;
      return false;
    }
    for (let q = 0; q < sides.length; q++) {
      const side = sides[q];
      const least = -bound[side ^ 1] - spare;
      if (least > bound[side] && !trail.set(side, least, this.#name, k)) return false;
    }
    return true;
  }
}
