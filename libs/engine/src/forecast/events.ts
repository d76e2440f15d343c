import { NEVER } from '../calendar.js';

/** What happens to a task at a minute: its links let it start, its time has passed, its end is reached. */
export const WhatFor = { Release: 0, Shown: 1, End: 2 } as const;

/** Minutes to come, earliest first: a binary heap of (minute, task, what for). */
export class Events {
  #minute: Int32Array;
  #code: Int32Array;
  #size = 0;

  constructor(tasks: number) {
    // A task waits for one thing at a time.
    this.#minute = new Int32Array(tasks + 1);
    this.#code = new Int32Array(tasks + 1);
  }

  clear(): void {
    this.#size = 0;
  }

  /** The earliest minute, or NEVER. */
  get next(): number {
    return this.#size > 0 ? this.#minute[0] : NEVER;
  }

  get task(): number {
    return this.#code[0] >> 2;
  }

  get what(): number {
    return this.#code[0] & 3;
  }

  push(minute: number, task: number, what: number): void {
    const minutes = this.#minute;
    const codes = this.#code;
    const code = (task << 2) | what;
    let k = this.#size++;
    while (k > 0) {
      const up = (k - 1) >> 1;
      if (minutes[up] < minute || (minutes[up] === minute && codes[up] <= code)) break;
      minutes[k] = minutes[up];
      codes[k] = codes[up];
      k = up;
    }
    minutes[k] = minute;
    codes[k] = code;
  }

  pop(): void {
    const minutes = this.#minute;
    const codes = this.#code;
    const size = --this.#size;
    const minute = minutes[size];
    const code = codes[size];
    let k = 0;
    for (;;) {
      let child = 2 * k + 1;
      if (child >= size) break;
      const right = child + 1;
      if (
        right < size &&
        (minutes[right] < minutes[child] ||
          (minutes[right] === minutes[child] && codes[right] < codes[child]))
      )
        child = right;
      if (minutes[child] > minute || (minutes[child] === minute && codes[child] >= code)) break;
      minutes[k] = minutes[child];
      codes[k] = codes[child];
      k = child;
    }
    minutes[k] = minute;
    codes[k] = code;
  }
}
