import { EVER, NEVER } from '../calendar.js';
import type { ToolSteps } from '../model/steps.js';
import type { Minute } from '../problem.js';

/**
 * How much of one tool is free over all time, as steps: from at[k] until at[k + 1] there are free[k]. A pass takes
 * pieces away; `reset` puts them back. A question costs a binary search and a walk over the steps it meets.
 */
export class ToolTimeline {
  #at: Int32Array;
  #free: Int32Array;
  #count = 0;
  #whole = true;
  readonly #base: ToolSteps;

  constructor(base: ToolSteps) {
    this.#base = base;
    this.#at = new Int32Array(2 * base.at.length + 16);
    this.#free = new Int32Array(this.#at.length);
    this.#count = base.at.length;
    this.#at.set(base.at);
    this.#free.set(base.free);
  }

  reset(): void {
    if (this.#whole) return;
    this.#count = this.#base.at.length;
    this.#at.set(this.#base.at);
    this.#free.set(this.#base.free);
    this.#whole = true;
  }

  /** First minute, t at least, with so many free; NEVER when there is none. */
  freeFrom(t: Minute, count: number): Minute {
    for (let k = this.#step(t); k < this.#count; k++) {
      if (this.#free[k] >= count) return this.#at[k] > t ? this.#at[k] : t;
    }
    return NEVER;
  }

  /** First minute after t with fewer than so many free; NEVER when there is none. */
  shortFrom(t: Minute, count: number): Minute {
    for (let k = this.#step(t); k < this.#count; k++) {
      if (this.#free[k] < count) return this.#at[k] > t ? this.#at[k] : t;
    }
    return NEVER;
  }

  take(from: Minute, to: Minute, count: number): void {
    if (from >= to) return;
    this.#whole = false;
    const a = this.#cut(from);
    const b = this.#cut(to);
    for (let k = a; k < b; k++) this.#free[k] -= count;
  }

  #step(t: Minute): number {
    let low = 0;
    let high = this.#count - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.#at[middle] <= t) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  #cut(t: Minute): number {
    const k = t <= EVER ? 0 : this.#step(t);
    if (this.#at[k] === t) return k;
    if (this.#count === this.#at.length) {
      const at = new Int32Array(2 * this.#count);
      const free = new Int32Array(2 * this.#count);
      at.set(this.#at);
      free.set(this.#free);
      this.#at = at;
      this.#free = free;
    }
    this.#at.copyWithin(k + 2, k + 1, this.#count);
    this.#free.copyWithin(k + 1, k, this.#count);
    this.#at[k + 1] = t;
    this.#count++;
    return k + 1;
  }
}
