import type { Trail } from './trail.js';

/**
 * Which questions "is x at least v?" had to do with conflicts lately, the liveliest first (activities that decay:
 * Moskewicz and others 2001, from memory).
 */
export class Atoms {
  readonly #trail: Trail;
  /** By variable, place of the question about its least value plus 1, less that value. */
  readonly #base: Int32Array;
  readonly #variable: Int32Array;
  readonly #activity: Float64Array;
  #step = 1;
  readonly #decay: number;
  /** Binary heap of the questions that were asked for, and where each stands in it, -1 where it doesn't. */
  readonly #heap: Int32Array;
  readonly #at: Int32Array;
  #size = 0;
  /** Questions taken off the heap, by level. */
  readonly #taken: Int32Array;
  #takenCount = 0;
  readonly #takenAt: number[] = [];

  constructor(trail: Trail, decay: number) {
    this.#trail = trail;
    this.#decay = decay;
    const variables = trail.bound.length >> 1;
    this.#base = new Int32Array(variables);
    let size = 0;
    for (let x = 0; x < variables; x++) {
      const low = trail.bound[2 * x];
      this.#base[x] = size - low - 1;
      size += -trail.bound[2 * x + 1] - low;
    }
    this.#variable = new Int32Array(size);
    for (let x = 0; x < variables; x++) {
      const from = this.#base[x] + trail.bound[2 * x] + 1;
      this.#variable.fill(x, from, this.#base[x] - trail.bound[2 * x + 1] + 1);
    }
    this.#activity = new Float64Array(size);
    this.#heap = new Int32Array(size);
    this.#at = new Int32Array(size).fill(-1);
    this.#taken = new Int32Array(size);
  }

  /** A literal had a part in a conflict. */
  bump(side: number, value: number): void {
    const atom = this.#base[side >> 1] + ((side & 1) === 0 ? value : 1 - value);
    const activity = (this.#activity[atom] += this.#step);
    if (this.#at[atom] >= 0) this.#up(this.#at[atom]);
    else if (activity === this.#step) this.#put(atom);
    if (activity > 1e100) this.#scale();
  }

  decay(): void {
    this.#step /= this.#decay;
  }

  openLevel(level: number): void {
    this.#takenAt[level] = this.#takenCount;
  }

  backTo(level: number): void {
    const first = this.#takenAt[level + 1];
    for (let k = this.#takenCount - 1; k >= first; k--)
      if (this.#at[this.#taken[k]] < 0) this.#put(this.#taken[k]);
    this.#takenCount = first;
  }

  /** The liveliest question that is open, left in `variable` and `value`; false when none is. */
  next(): boolean {
    const { bound } = this.#trail;
    while (this.#size > 0) {
      const atom = this.#heap[0];
      const x = this.#variable[atom];
      const v = atom - this.#base[x];
      if (bound[2 * x] < v && -bound[2 * x + 1] >= v) {
        this.variable = x;
        this.value = v;
        return true;
      }
      this.#pop();
      this.#taken[this.#takenCount++] = atom;
    }
    return false;
  }

  variable = 0;
  value = 0;

  #scale(): void {
    for (let k = 0; k < this.#activity.length; k++) this.#activity[k] *= 1e-100;
    this.#step *= 1e-100;
  }

  #put(atom: number): void {
    this.#heap[this.#size] = atom;
    this.#at[atom] = this.#size;
    this.#up(this.#size++);
  }

  #up(from: number): void {
    const heap = this.#heap;
    const activity = this.#activity;
    const atom = heap[from];
    let k = from;
    while (k > 0) {
      const parent = (k - 1) >> 1;
      if (activity[heap[parent]] >= activity[atom]) break;
      heap[k] = heap[parent];
      this.#at[heap[k]] = k;
      k = parent;
    }
    heap[k] = atom;
    this.#at[atom] = k;
  }

  #pop(): void {
    const heap = this.#heap;
    const activity = this.#activity;
    this.#at[heap[0]] = -1;
    const atom = heap[--this.#size];
    if (this.#size === 0) return;
    let k = 0;
    for (;;) {
      let child = 2 * k + 1;
      if (child >= this.#size) break;
      if (child + 1 < this.#size && activity[heap[child + 1]] > activity[heap[child]]) child++;
      if (activity[heap[child]] <= activity[atom]) break;
      heap[k] = heap[child];
      this.#at[heap[k]] = k;
      k = child;
    }
    heap[k] = atom;
    this.#at[atom] = k;
  }
}
