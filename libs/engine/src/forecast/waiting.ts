import { Kind } from '../model/kind.js';
import type { Course } from './course.js';

/**
 * The tasks that wait for somebody to take them up, as bits by their place in the order; and for which of them there is
 * no crew for the time being. Many tasks ask for the same crew (a need). Where one finds none, neither among the free nor
 * among those at less urgent work, no less urgent one with that need does, until somebody it lacks becomes free: until
 * then they are passed over.
 */
export class Waiting {
  readonly ready: Int32Array;
  /** What takes nobody away from other work stands apart: it is asked whether or not somebody is free. */
  readonly apart: Int32Array;
  /** Those of the tasks whose need can't be met now. */
  readonly blocked: Int32Array;
  /** Rises whenever a task joins. */
  woken = 0;
  /** No word of `ready` before the first and from `end` on has anything in it; how many tasks stand apart. */
  first = 0;
  end = 0;
  apartCount = 0;

  readonly #need: Int32Array;
  readonly #placeOf: Int32Array;
  readonly #words: number;
  readonly #isApart: Uint8Array;
  /** By need, a row of bits by place: the tasks that have it. */
  readonly #tasksOf: Int32Array;
  /** By need, the words of its row between which its tasks stand. */
  readonly #low: Int32Array;
  readonly #high: Int32Array;
  /** The needs that are blocked; by need, whether it is, and which people would help, as bits. */
  readonly #list: Int32Array;
  #count = 0;
  readonly #isListed: Uint8Array;
  readonly #watch: Int32Array;

  constructor(course: Course) {
    const { n, needs, need, kind, crowd } = course.model;
    const row = Math.ceil(n / 32);
    this.#need = need;
    this.#placeOf = course.placeOf;
    this.#words = crowd.words;
    this.ready = new Int32Array(row);
    this.apart = new Int32Array(row);
    this.blocked = new Int32Array(row);
    this.#isApart = Uint8Array.from(need, (one, i) => (one < 0 || kind[i] === Kind.SaySo ? 1 : 0));
    this.#tasksOf = new Int32Array(row * needs.length);
    this.#low = new Int32Array(needs.length).fill(row);
    this.#high = new Int32Array(needs.length);
    for (let i = 0; i < n; i++) {
      if (this.#isApart[i] !== 0) continue;
      const place = course.placeOf[i];
      this.#tasksOf[need[i] * row + (place >> 5)] |= 1 << (place & 31);
      this.#low[need[i]] = Math.min(this.#low[need[i]], place >> 5);
      this.#high[need[i]] = Math.max(this.#high[need[i]], (place >> 5) + 1);
    }
    this.#list = new Int32Array(needs.length);
    this.#isListed = new Uint8Array(needs.length);
    this.#watch = new Int32Array(needs.length * crowd.words);
  }

  clear(): void {
    this.ready.fill(0);
    this.apart.fill(0);
    this.first = this.ready.length;
    this.end = 0;
    this.apartCount = 0;
    this.unblockAll();
  }

  add(i: number): void {
    const place = this.#placeOf[i];
    const q = place >> 5;
    const bit = 1 << (place & 31);
    this.woken++;
    if (this.#isApart[i] !== 0) {
      if ((this.apart[q] & bit) === 0) this.apartCount++;
      this.apart[q] |= bit;
      return;
    }
    this.ready[q] |= bit;
    if (q < this.first) this.first = q;
    if (q >= this.end) this.end = q + 1;
  }

  remove(i: number): void {
    const place = this.#placeOf[i];
    const q = place >> 5;
    const bit = 1 << (place & 31);
    if (this.#isApart[i] !== 0) {
      if ((this.apart[q] & bit) !== 0) this.apartCount--;
      this.apart[q] &= ~bit;
      return;
    }
    const { ready } = this;
    ready[q] &= ~bit;
    if (q === this.first) while (this.first < this.end && ready[this.first] === 0) this.first++;
  }

  /**
   * No crew can be made up for task i, nor for any less urgent one with its need.
   * @param lacking of whom there are too few
   * @param pool all whom it could have, as bits
   */
  block(i: number, lacking: Int32Array, pool: Int32Array): void {
    const need = this.#need[i];
    const place = this.#placeOf[i];
    const words = this.#words;
    if (this.#isListed[need] === 0) this.#list[this.#count++] = need;
    this.#isListed[need] = 1;
    const { blocked } = this;
    const at = need * blocked.length;
    const first = place >> 5;
    blocked[first] |= this.#tasksOf[at + first] & (-1 << (place & 31));
    const end = this.#high[need];
    for (let q = first + 1; q < end; q++) blocked[q] |= this.#tasksOf[at + q];
    for (let q = 0; q < words; q++) this.#watch[need * words + q] = lacking[q] & ~pool[q];
  }

  /** These people have become free. Forgets them. */
  freed(freed: Int32Array): void {
    const words = this.#words;
    for (let q = 0; q < words; q++) {
      const some = freed[q];
      if (some === 0) continue;
      freed[q] = 0;
      for (let k = this.#count - 1; k >= 0; k--) {
        const need = this.#list[k];
        if ((this.#watch[need * words + q] & some) === 0) continue;
        this.#isListed[need] = 0;
        this.#list[k] = this.#list[--this.#count];
        const { blocked } = this;
        const at = need * blocked.length;
        const end = this.#high[need];
        for (let b = this.#low[need]; b < end; b++) blocked[b] &= ~this.#tasksOf[at + b];
      }
    }
  }

  unblockAll(): void {
    for (let k = 0; k < this.#count; k++) this.#isListed[this.#list[k]] = 0;
    this.#count = 0;
    this.blocked.fill(0);
  }
}
