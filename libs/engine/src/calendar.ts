import type { Minute, Turnout } from './problem.js';

/**
 * Working time: how many minutes of turnouts lie before a minute, and back again.
 *
 * Turnouts are held as three flat arrays and a table of buckets over each axis, so that every question is answered
 * by one table look-up and a short binary search inside the bucket, without allocating.
 *
 *     turnout        |=====|        |=====|
 *     minute t    0  10    60      200   250
 *     worked(t)   0  0     50 ..... 50   100
 *
 * `worked` is flat between turnouts, so its inverse has two ends: work that *ends* at 50 ends at minute 60, work
 * that *starts* at 50 starts at minute 200.
 */

/** Later than any minute of any problem: "not within these turnouts". Fits a 32-bit integer, sums of two as well. */
export const NEVER: Minute = 0x3fffffff;
/** Earlier than any minute of any problem. */
export const EVER: Minute = -0x3fffffff;

export class WorkCalendar {
  /** How many turnouts. */
  readonly count: number;
  readonly start: Int32Array;
  readonly end: Int32Array;
  /** Working minutes before each turnout; one entry more than turnouts, the last being `total`. */
  readonly before: Int32Array;
  /** Working minutes of all turnouts. */
  readonly total: number;
  /** Length of the longest turnout. */
  readonly longest: number;
  readonly #byMinute: Buckets;
  readonly #byWork: Buckets;

  /** @param turnouts in order of time, not overlapping; they may touch. */
  constructor(turnouts: readonly Pick<Turnout, 'start' | 'end'>[]) {
    const n = turnouts.length;
    this.count = n;
    this.start = new Int32Array(n);
    this.end = new Int32Array(n);
    this.before = new Int32Array(n + 1);
    let longest = 0;
    turnouts.forEach((turnout, w) => {
      const length = turnout.end - turnout.start;
      this.start[w] = turnout.start;
      this.end[w] = turnout.end;
      this.before[w + 1] = this.before[w] + length;
      if (length > longest) longest = length;
    });
    this.total = this.before[n];
    this.longest = longest;
    this.#byMinute = new Buckets(this.end);
    this.#byWork = new Buckets(this.before.subarray(1));
  }

  /** Index of the first turnout that ends after minute t; `count` when none does. */
  turnoutAfter(t: Minute): number {
    return this.#byMinute.firstAbove(t);
  }

  /** Index of the turnout that minute t lies in, or -1 between turnouts. */
  turnoutAt(t: Minute): number {
    const w = this.#byMinute.firstAbove(t);
    return w < this.count && this.start[w] <= t ? w : -1;
  }

  /** Working minutes before minute t. */
  worked(t: Minute): number {
    const w = this.#byMinute.firstAbove(t);
    if (w === this.count) return this.total;
    return t > this.start[w] ? this.before[w] + t - this.start[w] : this.before[w];
  }

  /** Working minutes from a to b, negative when b is earlier. */
  between(a: Minute, b: Minute): number {
    return this.worked(b) - this.worked(a);
  }

  /**
   * The minute at which working minute `work` (counted from 0) begins: the latest minute before which just `work`
   * minutes are worked. NEVER past the last turnout, EVER below 0.
   */
  startOf(work: number): Minute {
    if (work < 0) return EVER;
    if (work >= this.total) return NEVER;
    const w = this.#byWork.firstAbove(work);
    return this.start[w] + work - this.before[w];
  }

  /**
   * The earliest minute before which `work` working minutes lie. NEVER when there are not so many, EVER for 0 and
   * less: nothing has to pass.
   */
  endOf(work: number): Minute {
    if (work <= 0) return EVER;
    if (work > this.total) return NEVER;
    const w = this.#byWork.firstAbove(work - 1);
    return this.start[w] + work - this.before[w];
  }

  /** When work of so many working minutes ends if it begins at minute t or as soon as there is a turnout. */
  advance(t: Minute, minutes: number): Minute {
    return minutes <= 0 ? t : this.endOf(this.worked(t) + minutes);
  }

  /** The latest minute at which work of so many working minutes must begin to end by minute t. */
  retreat(t: Minute, minutes: number): Minute {
    return minutes <= 0 ? t : this.startOf(this.worked(t) - minutes);
  }

  /** Minute t when it lies in a turnout, else the start of the next one, or NEVER. */
  next(t: Minute): Minute {
    const w = this.#byMinute.firstAbove(t);
    if (w === this.count) return NEVER;
    return t > this.start[w] ? t : this.start[w];
  }

  /** The latest minute, t at most, at which work can end: t inside a turnout, else the end of the last one, or EVER. */
  previous(t: Minute): Minute {
    const w = this.#byMinute.firstAbove(t - 1);
    if (w < this.count && this.start[w] < t) return t;
    return w > 0 ? this.end[w - 1] : EVER;
  }

  /** Earliest start, t at least, of a segment of so many minutes inside one turnout, or NEVER. */
  fit(t: Minute, minutes: number): Minute {
    for (let w = this.#byMinute.firstAbove(t); w < this.count; w++) {
      const from = t > this.start[w] ? t : this.start[w];
      if (this.end[w] - from >= minutes) return from;
    }
    return NEVER;
  }

  /** Latest start of a segment of so many minutes inside one turnout that ends by minute t, or EVER. */
  fitBefore(t: Minute, minutes: number): Minute {
    let w = this.#byMinute.firstAbove(t - 1);
    if (w === this.count) w--;
    for (; w >= 0; w--) {
      const to = t < this.end[w] ? t : this.end[w];
      if (to - this.start[w] >= minutes) return to - minutes;
    }
    return EVER;
  }

  /**
   * The earliest minute that keeps a lag after minute t. A working lag of l asks for l working minutes between the
   * two; a negative one allows so many to be given back; 0 means "not earlier" in either kind.
   */
  lagged(t: Minute, lag: number, working: boolean): Minute {
    if (lag === 0) return t;
    if (!working) return t + lag;
    return this.endOf(this.worked(t) + lag);
  }

  /** The latest minute from which the lag is kept by minute t: the inverse of `lagged`. */
  unlagged(t: Minute, lag: number, working: boolean): Minute {
    if (lag === 0) return t;
    if (!working) return t - lag;
    return this.startOf(this.worked(t) - lag);
  }
}

/** Finds the first entry above a value in a rising array: a table over equal widths narrows the binary search. */
class Buckets {
  readonly #values: Int32Array;
  readonly #low: number;
  readonly #shift: number;
  readonly #first: Int32Array;

  constructor(values: Int32Array) {
    this.#values = values;
    const n = values.length;
    this.#low = n > 0 ? values[0] : 0;
    const span = n > 0 ? values[n - 1] - this.#low : 0;
    let shift = 0;
    while (span >> shift > 2 * n) shift++;
    this.#shift = shift;
    const size = (span >> shift) + 2;
    this.#first = new Int32Array(size);
    for (let b = 0, i = 0; b < size; b++) {
      while (i < n && values[i] - this.#low < b * 2 ** shift) i++;
      this.#first[b] = i;
    }
  }

  firstAbove(value: number): number {
    const values = this.#values;
    const n = values.length;
    if (n === 0 || value < this.#low) return 0;
    if (value >= values[n - 1]) return n;
    const b = (value - this.#low) >> this.#shift;
    let low = this.#first[b];
    let high = this.#first[b + 1];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (values[middle] > value) high = middle;
      else low = middle + 1;
    }
    return low;
  }
}
