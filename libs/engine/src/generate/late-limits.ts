import { EVER } from '../calendar.js';
import type { Model } from '../model/model.js';
import type { Minute } from '../problem.js';

/** The opening minute of what is not open at all. */
export const NEVER_OPEN = 0x3fffffff;

/**
 * Limits that come into force at some minute of the plan, such as one that the shipwright has raised until a day.
 *
 * What is opened before that minute must be shut by then, or be within the limit; whether it will be is only known
 * when its closer is placed. So an opener goes past such a limit first, and when the drawing is over it is seen
 * whether that held. Where not, the opener placed last of those that are too many is bound: in the next drawing it
 * counts the limit as if it were in force already. With every opener bound a drawing holds, so there are no more
 * drawings than openers.
 */
export class LateLimits {
  readonly #model: Model;
  /** By task: opens something that a late limit counts and has not begun. */
  readonly #concerned: Uint8Array;
  readonly #bound: Uint8Array;
  /** Openers concerned, as they were placed in this drawing. */
  readonly #line: Int32Array;
  #placed = 0;
  /** By limit that the last drawing did not keep: who opened what was too much. */
  readonly #tooMany: number[][] = [];
  #asked = -1;
  #askedAt: Minute = EVER;
  anyBound = false;

  constructor(model: Model) {
    const { openings, n, begun } = model;
    this.#model = model;
    this.#concerned = new Uint8Array(n);
    this.#bound = new Uint8Array(n);
    this.#line = new Int32Array(n);
    for (const { elements, from } of openings.limits) {
      if (from === EVER) continue;
      for (const e of elements) {
        const i = openings.opener[e];
        if (i >= 0 && begun[i] === EVER) this.#concerned[i] = 1;
      }
    }
  }

  /** No opener is bound. */
  begin(): void {
    this.#bound.fill(0);
    this.anyBound = false;
  }

  bindAll(): void {
    this.#bound.set(this.#concerned);
    this.anyBound = true;
  }

  /** A drawing begins. */
  again(): void {
    this.#placed = 0;
    this.#tooMany.length = 0;
    this.#asked = -1;
  }

  /** Task i is asked about, which can't start before t. */
  ask(i: number, t: Minute): void {
    this.#asked = i;
    this.#askedAt = t;
  }

  /** Whether limit l asks nothing of opener i in this drawing. */
  spares(l: number, i: number): boolean {
    const { from } = this.#model.openings.limits[l];
    if (from === EVER || this.#bound[i] !== 0) return false;
    return i !== this.#asked || this.#askedAt < from;
  }

  placed(i: number): void {
    if (this.#concerned[i] !== 0) this.#line[this.#placed++] = i;
  }

  /** Whether each late limit is kept from its minute on; remembers which openers are too many. */
  holds(open: Int32Array, shut: Int32Array): boolean {
    const { openings, begun } = this.#model;
    this.#tooMany.length = 0;
    for (const { elements, atMost, from } of openings.limits) {
      if (from === EVER) continue;
      const isOpen = (e: number, t: Minute) => open[e] !== NEVER_OPEN && open[e] <= t && shut[e] > t;
      for (const e of elements) {
        const opener = openings.opener[e];
        if (opener < 0 || begun[opener] > EVER) continue;
        const t = Math.max(open[e], from);
        if (!isOpen(e, t)) continue;
        const opened = elements.filter((other) => isOpen(other, t));
        if (opened.length <= atMost) continue;
        this.#tooMany.push(opened.map((other) => openings.opener[other]));
        break;
      }
    }
    return this.#tooMany.length === 0;
  }

  /** Of the openers that are too many, else of all, the one placed last is bound; else every one. False where all are. */
  bindMore(): boolean {
    let more = false;
    for (const openers of this.#tooMany) more = this.#bindLast(openers) || more;
    this.#tooMany.length = 0;
    if (more || this.#bindLast(null)) return true;
    more = this.#concerned.some((one, i) => one !== 0 && this.#bound[i] === 0);
    if (more) this.bindAll();
    return more;
  }

  #bindLast(among: number[] | null): boolean {
    for (let k = this.#placed - 1; k >= 0; k--) {
      const i = this.#line[k];
      if (this.#bound[i] !== 0 || among?.includes(i) === false) continue;
      this.#bound[i] = 1;
      this.anyBound = true;
      return true;
    }
    return false;
  }
}
