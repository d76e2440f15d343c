import type { Model } from '../model/model.js';
import type { Minute } from '../problem.js';

/**
 * Who is free, turnout by turnout: each turnout is a short row of slices, each slice the set of people free from
 * its first minute on until the next slice.
 *
 *     from    0        60              180     (end of turnout: 300)
 *     free    {a b c}  {a c}           {a b c}
 *
 * A turnout is copied from the stays when a pass first touches it, so a pass costs only what it uses.
 */
export class FreePeople {
  readonly #model: Model;
  readonly #words: number;
  readonly #from: Int32Array[] = [];
  readonly #free: Int32Array[] = [];
  readonly #count: Int32Array;
  readonly #touched: Int32Array;
  #pass = 1;

  constructor(model: Model) {
    this.#model = model;
    this.#words = model.crowd.words;
    const turnouts = model.calendar.count;
    this.#count = new Int32Array(turnouts);
    this.#touched = new Int32Array(turnouts);
    const { first } = model.presence;
    for (let w = 0; w < turnouts; w++) {
      const room = 2 * (first[w + 1] - first[w]) + 8;
      this.#from.push(new Int32Array(room));
      this.#free.push(new Int32Array(room * this.#words));
    }
  }

  reset(): void {
    this.#pass++;
  }

  /** Makes turnout w readable; its slices are then `from(w)` and `free(w)`, `count(w)` of them. */
  open(w: number): void {
    if (this.#touched[w] === this.#pass) return;
    this.#touched[w] = this.#pass;
    const { first, from, here } = this.#model.presence;
    const a = first[w];
    const b = first[w + 1];
    const words = this.#words;
    const ownFrom = this.#from[w];
    const ownFree = this.#free[w];
    for (let k = a; k < b; k++) ownFrom[k - a] = from[k];
    for (let k = a * words; k < b * words; k++) ownFree[k - a * words] = here[k];
    this.#count[w] = b - a;
  }

  from(w: number): Int32Array {
    return this.#from[w];
  }

  free(w: number): Int32Array {
    return this.#free[w];
  }

  count(w: number): number {
    return this.#count[w];
  }

  /** Index of the slice that minute t lies in. */
  slice(w: number, t: Minute): number {
    const from = this.#from[w];
    let k = this.#count[w] - 1;
    while (k > 0 && from[k] > t) k--;
    return k;
  }

  /** These people are busy over [start, end) in turnout w. */
  take(w: number, start: Minute, end: Minute, crews: Int32Array, at: number): void {
    if (start >= end) return;
    const words = this.#words;
    const a = this.#cut(w, start);
    const b = end >= this.#model.calendar.end[w] ? this.#count[w] : this.#cut(w, end);
    const free = this.#free[w];
    for (let k = a; k < b; k++) for (let q = 0; q < words; q++) free[k * words + q] &= ~crews[at + q];
  }

  #cut(w: number, t: Minute): number {
    const k = this.slice(w, t);
    if (this.#from[w][k] === t) return k;
    const count = this.#count[w];
    const words = this.#words;
    if (count === this.#from[w].length) {
      const from = new Int32Array(2 * count);
      const free = new Int32Array(2 * count * words);
      from.set(this.#from[w]);
      free.set(this.#free[w]);
      this.#from[w] = from;
      this.#free[w] = free;
    }
    const from = this.#from[w];
    const free = this.#free[w];
    from.copyWithin(k + 2, k + 1, count);
    free.copyWithin((k + 1) * words, k * words, count * words);
    from[k + 1] = t;
    this.#count[w] = count + 1;
    return k + 1;
  }
}
