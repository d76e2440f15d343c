import type { Model } from '../model/model.js';
import { weekEnd, weekOf } from '../model/presence.js';
import type { Minute } from '../problem.js';

/** Minutes that each person has worked, by turnout and by week, against what they want to work at most. */
export class Caps {
  readonly #model: Model;
  readonly #people: number;
  readonly #turnout: Int32Array;
  readonly #week: Int32Array;
  readonly #firstWeek: number;

  constructor(model: Model) {
    this.#model = model;
    this.#people = model.crowd.anyCapped ? model.crowd.count : 0;
    const { count, start, end } = model.calendar;
    const weeks = count === 0 ? [0] : [weekOf(model, start[0]), weekOf(model, end[count - 1] - 1)];
    this.#firstWeek = Math.min(...weeks);
    this.#turnout = new Int32Array(this.#people * count);
    this.#week = new Int32Array(this.#people * (Math.max(...weeks) - this.#firstWeek + 1));
  }

  reset(): void {
    if (this.#people === 0) return;
    this.#turnout.fill(0);
    this.#week.fill(0);
  }

  /** The minute until which person r may work in turnout w if they begin at minute s. */
  until(w: number, r: number, s: Minute): Minute {
    const { turnoutCap, weekCap } = this.#model.crowd;
    const end = this.#model.calendar.end[w];
    let until = s + turnoutCap[r] - this.#turnout[w * this.#people + r];
    if (until > end) until = end;
    for (let t = s; t < until;) {
      const left = weekCap[r] - this.#week[(weekOf(this.#model, t) - this.#firstWeek) * this.#people + r];
      const over = weekEnd(this.#model, t);
      if (t + left < over) return Math.min(until, t + Math.max(0, left));
      t = over;
    }
    return until;
  }

  /** Books (or with sign -1 gives back) the minutes of [start, end) for all of a crew. */
  book(w: number, start: Minute, end: Minute, crews: Int32Array, at: number, sign: 1 | -1): void {
    if (this.#people === 0) return;
    for (let t = start; t < end;) {
      const over = Math.min(end, weekEnd(this.#model, t));
      const week = (weekOf(this.#model, t) - this.#firstWeek) * this.#people;
      for (let k = 0; k < this.#model.crowd.words; k++) {
        for (let pool = crews[at + k]; pool !== 0;) {
          const bit = pool & -pool;
          pool ^= bit;
          const r = (k << 5) + 31 - Math.clz32(bit);
          this.#week[week + r] += sign * (over - t);
          this.#turnout[w * this.#people + r] += sign * (over - t);
        }
      }
      t = over;
    }
  }
}
