import type { Minute } from '../problem.js';

/** Segments of one pass in the order of their making, one typed array a field; `crew` holds `words` integers each. */
export class Segments {
  count = 0;
  task = new Int32Array(64);
  turnout = new Int32Array(64);
  start = new Int32Array(64);
  end = new Int32Array(64);
  crew: Int32Array;
  readonly #words: number;

  constructor(words: number) {
    this.#words = words;
    this.crew = new Int32Array(64 * words);
  }

  add(task: number, turnout: number, start: Minute, end: Minute, crews: Int32Array, at: number): void {
    const k = this.count;
    if (k === this.task.length) this.#grow();
    this.task[k] = task;
    this.turnout[k] = turnout;
    this.start[k] = start;
    this.end[k] = end;
    for (let q = 0; q < this.#words; q++) this.crew[k * this.#words + q] = crews[at + q];
    this.count++;
  }

  #grow(): void {
    const longer = (array: Int32Array) => {
      const next = new Int32Array(2 * array.length);
      next.set(array);
      return next;
    };
    this.task = longer(this.task);
    this.turnout = longer(this.turnout);
    this.start = longer(this.start);
    this.end = longer(this.end);
    this.crew = longer(this.crew);
  }
}
