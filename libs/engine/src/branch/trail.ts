/**
 * Whole numbers between bounds, and the trail of how the bounds came together.
 *
 * Every variable x has two **sides**: side 2x is its lower bound, side 2x + 1 its upper bound with the sign turned, so
 * that on both sides a bound only ever rises and one piece of code does for both:
 *
 *     x in 3..8    bound[2x] = 3    bound[2x + 1] = -8
 *
 * A **literal** is a side and a value: "the bound of this side is at least the value". [x >= 5] is (2x, 5), and its
 * contrary [x <= 4] is (2x + 1, -4): the other side, 1 less the value.
 *
 * The trail holds each rise with its reason, so that it can be taken back and asked why.
 */
export class Trail {
  /** By side. */
  readonly bound: Int32Array;
  /** By side the last entry that raised it, -1 where none did. */
  readonly last: Int32Array;
  /** By entry: the side, its bound after and before, the entry of the same side before, and why. */
  side: Int32Array;
  value: Int32Array;
  old: Int32Array;
  before: Int32Array;
  reason: Int32Array;
  /** What the reason needs to remember. */
  info: Int32Array;
  length = 0;
  level = 0;
  /** First entry of each level. */
  readonly #levelAt: number[] = [0];
  /** The literal that could not be set, as a side, the value beyond its reach, and the reason for it. */
  readonly failed = { side: 0, value: 0, reason: 0, info: 0 };

  /** @param low least and @param high greatest value by variable, low <= high */
  constructor(low: ArrayLike<number>, high: ArrayLike<number>) {
    const sides = 2 * low.length;
    this.bound = new Int32Array(sides);
    for (let x = 0; x < low.length; x++) {
      this.bound[2 * x] = low[x];
      this.bound[2 * x + 1] = -high[x];
    }
    this.last = new Int32Array(sides).fill(-1);
    const room = 1024;
    this.side = new Int32Array(room);
    this.value = new Int32Array(room);
    this.old = new Int32Array(room);
    this.before = new Int32Array(room);
    this.reason = new Int32Array(room);
    this.info = new Int32Array(room);
  }

  /** Raises a side's bound; false, with `failed` set, where the variable would have no value left. */
  set(side: number, value: number, reason: number, info: number): boolean {
    const { bound } = this;
    const old = bound[side];
    if (value <= old) return true;
    const most = -bound[side ^ 1];
    if (value > most) {
      const { failed } = this;
      failed.side = side;
      failed.value = most + 1;
      failed.reason = reason;
      failed.info = info;
      return false;
    }
    const k = this.length;
    if (k === this.side.length) this.#grow();
    this.side[k] = side;
    this.value[k] = value;
    this.old[k] = old;
    this.before[k] = this.last[side];
    this.reason[k] = reason;
    this.info[k] = info;
    this.last[side] = k;
    bound[side] = value;
    this.length = k + 1;
    return true;
  }

  openLevel(): void {
    this.level++;
    this.#levelAt[this.level] = this.length;
  }

  /** First entry of a level. */
  levelAt(level: number): number {
    return this.#levelAt[level];
  }

  /** Level at which entry k was made. */
  levelOf(k: number): number {
    let low = 0;
    let high = this.level;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.#levelAt[middle] <= k) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  /** Takes back everything above a level. */
  backTo(level: number): void {
    if (level >= this.level) return;
    const { bound, last, side, old, before } = this;
    const first = this.#levelAt[level + 1];
    for (let k = this.length - 1; k >= first; k--) {
      const s = side[k];
      bound[s] = old[k];
      last[s] = before[k];
    }
    this.length = first;
    this.level = level;
  }

  /** The entry that made a literal true, -1 where it was true from the start. The literal must be true now. */
  entryOf(side: number, value: number): number {
    const { old, before } = this;
    let k = this.last[side];
    while (k >= 0 && old[k] >= value) k = before[k];
    return k;
  }

  /** Bound of a side as it was before entry `at` was made. */
  boundBefore(side: number, at: number): number {
    const { old, before } = this;
    let bound = this.bound[side];
    for (let k = this.last[side]; k >= at; k = before[k]) bound = old[k];
    return bound;
  }

  #grow(): void {
    const longer = (array: Int32Array) => {
      const next = new Int32Array(2 * array.length);
      next.set(array);
      return next;
    };
    this.side = longer(this.side);
    this.value = longer(this.value);
    this.old = longer(this.old);
    this.before = longer(this.before);
    this.reason = longer(this.reason);
    this.info = longer(this.info);
  }
}

/** A growing list of literals, side and value by turns. */
export class Literals {
  count = 0;
  at: Int32Array = new Int32Array(256);

  clear(): void {
    this.count = 0;
  }

  add(side: number, value: number): void {
    if (2 * this.count + 2 > this.at.length) {
      const next = new Int32Array(2 * this.at.length);
      next.set(this.at);
      this.at = next;
    }
    this.at[2 * this.count] = side;
    this.at[2 * this.count + 1] = value;
    this.count++;
  }
}
