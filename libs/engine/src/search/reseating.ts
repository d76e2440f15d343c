import type { Minute } from '../problem.js';
import { MANY, NONE, type Lineup } from './lineup.js';
import type { Seating } from './seating.js';

/**
 * Makes room for a task by letting people change seats, no task losing its time: a seat is taken by somebody who is
 * free, or by somebody whose one task in the way finds another hand, and so on (augmenting paths: Kuhn 1955, for fixed
 * times where the way through each person is single).
 *
 *     new task  <- Ann leaves task c   <- Ben, free at c
 */
export class Reseating {
  readonly #line: Lineup;
  readonly #seating: Seating;
  readonly #need: Int32Array;
  /** Nodes tried for the seat in hand. */
  readonly #tried: Int32Array;
  readonly #moving: Uint8Array;
  /** What was changed: node and its holder before. */
  readonly #log: number[] = [];
  #stamp = 0;

  constructor(line: Lineup, seating: Seating, need: Int32Array, people: number) {
    this.#line = line;
    this.#seating = seating;
    this.#need = need;
    this.#tried = new Int32Array(line.n * line.seats);
    this.#moving = new Uint8Array(people);
  }

  /** Puts task i in at s, everything in time for the deadline; false, and nothing is changed, where that fails. */
  putIn(i: number, s: Minute, deadline: Minute): boolean {
    const line = this.#line;
    line.freeze(i, s, deadline);
    const log = this.#log;
    log.length = 0;
    const places = this.#seating.places(this.#need[i]);
    for (let k = 0; k < places; k++) {
      this.#stamp++;
      if (this.#fill(i * line.seats + k, DEPTH)) {
        line.hands[i]++;
        continue;
      }
      while (log.length > 0) {
        const holder = log.pop()!;
        const node = log.pop()!;
        line.leave(node);
        if (holder !== NONE) line.sit(node, holder);
      }
      line.hands[i] = 0;
      return false;
    }
    line.thaw();
    return true;
  }

  /** Finds somebody for the seat of a node, and sits them there; its holder, if it has one, leaves. */
  #fill(node: number, depth: number): boolean {
    const line = this.#line;
    const moving = this.#moving;
    const i = line.taskOf(node);
    const place = node - i * line.seats;
    const able = this.#seating.ableFor(this.#need[i], place);
    const { order } = this.#seating;
    const holder = place < line.hands[i] ? line.crew[node] : NONE;
    for (const wanted of [NONE, MANY]) {
      for (let k = 0; k < order.length; k++) {
        const r = order[k];
        if ((able[r >> 5] & (1 << (r & 31))) === 0 || moving[r] !== 0) continue;
        const other = line.overlap(r, i);
        if (wanted === NONE) {
          if (other !== NONE) continue;
        } else {
          if (other < 0 || depth === 0 || this.#tried[other] === this.#stamp || line.taskOf(other) === i)
            continue;
          this.#tried[other] = this.#stamp;
          moving[r] = 1;
          const found = this.#fill(other, depth - 1);
          moving[r] = 0;
          if (!found) continue;
        }
        if (holder !== NONE) line.leave(node);
        line.sit(node, r);
        this.#log.push(node, holder);
        return true;
      }
    }
    return false;
  }
}

const DEPTH = 6;
