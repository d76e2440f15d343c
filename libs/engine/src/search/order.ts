import type { Model } from '../model/model.js';

/**
 * Lists of tasks in order of a key, smallest first, every task after those that its links come from. A task whose
 * key is too small for its place waits for them. Binary heap over (key, place in the model's own order).
 */
export class Orderer {
  readonly #model: Model;
  readonly #heap: Int32Array;
  readonly #waits: Int32Array;
  readonly #incoming: Int32Array;
  #keys: Float64Array | Int32Array = new Int32Array(0);
  #size = 0;

  constructor(model: Model) {
    this.#model = model;
    this.#heap = new Int32Array(model.n);
    this.#waits = new Int32Array(model.n);
    const { at } = model.inLinks;
    this.#incoming = Int32Array.from({ length: model.n }, (_, i) => at[i + 1] - at[i]);
  }

  byKey(keys: Float64Array | Int32Array, list: Int32Array): void {
    const { n, outLinks } = this.#model;
    const { at, task } = outLinks;
    const waits = this.#waits;
    this.#keys = keys;
    this.#size = 0;
    waits.set(this.#incoming);
    for (let i = 0; i < n; i++) if (waits[i] === 0) this.#push(i);
    for (let filled = 0; filled < n; filled++) {
      const i = this.#pop();
      list[filled] = i;
      for (let q = at[i]; q < at[i + 1]; q++) if (--waits[task[q]] === 0) this.#push(task[q]);
    }
  }

  /**
   * The same where keys already keep the links but for ties, as starts and ends of a plan of plain links do:
   * insertion into `list` as it stands, which is quick when it is nearly in order.
   */
  byPlainKey(keys: Int32Array, list: Int32Array): void {
    const { n, place } = this.#model;
    for (let k = 1; k < n; k++) {
      const i = list[k];
      const key = keys[i];
      let q = k - 1;
      while (q >= 0 && (keys[list[q]] > key || (keys[list[q]] === key && place[list[q]] > place[i]))) {
        list[q + 1] = list[q];
        q--;
      }
      list[q + 1] = i;
    }
  }

  #before(a: number, b: number): boolean {
    const keys = this.#keys;
    return keys[a] < keys[b] || (keys[a] === keys[b] && this.#model.place[a] < this.#model.place[b]);
  }

  #push(i: number): void {
    const heap = this.#heap;
    let k = this.#size++;
    while (k > 0) {
      const parent = (k - 1) >> 1;
      if (!this.#before(i, heap[parent])) break;
      heap[k] = heap[parent];
      k = parent;
    }
    heap[k] = i;
  }

  #pop(): number {
    const heap = this.#heap;
    const top = heap[0];
    const last = heap[--this.#size];
    let k = 0;
    for (;;) {
      let child = 2 * k + 1;
      if (child >= this.#size) break;
      if (child + 1 < this.#size && this.#before(heap[child + 1], heap[child])) child++;
      if (!this.#before(heap[child], last)) break;
      heap[k] = heap[child];
      k = child;
    }
    heap[k] = last;
    return top;
  }
}
