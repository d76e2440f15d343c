import { bits, emptySet, size, type Crowd, type Need } from '../model/people.js';
import type { Random } from './random.js';

/** One kind of place on a task: so many people out of a set. */
interface Row {
  able: Int32Array;
  count: number;
}

/**
 * Fills the places of a task out of the people who are free: row by row, the scarcest first, the least wanted people
 * first with some chance in it; by augmenting paths (Kuhn 1955) where that fails.
 */
export class Seating {
  /** Ranks of the crew found last, `count` of them. */
  readonly crew: Int32Array;
  count = 0;

  readonly #rows: Row[][];
  readonly #able: Int32Array[][];
  readonly #words: number;
  readonly #taken: Int32Array;
  readonly #order: Int32Array;
  readonly #keys: Float64Array;
  readonly #seatOf: Int32Array;
  readonly #holder: Int32Array;
  readonly #tried: Int32Array;

  constructor(needs: Need[], crowd: Crowd) {
    const { words, count } = crowd;
    this.#words = words;
    this.#rows = needs.map(({ seats, lean, seated, hands }) => {
      const rows = seats.map(({ able, count: places }) => ({ able, count: places }));
      if (lean > seated) rows.push({ able: hands, count: lean - seated });
      return rows.sort((a, b) => size(a.able) / a.count - size(b.able) / b.count);
    });
    this.#able = this.#rows.map((rows) =>
      rows.flatMap(({ able, count: places }) => Array.from({ length: places }, () => able)),
    );
    const most = needs.reduce((sum, need) => Math.max(sum, need.lean), 1);
    this.crew = new Int32Array(most);
    this.#taken = emptySet(words);
    this.#order = Int32Array.from({ length: count }, (_, r) => r);
    this.#keys = new Float64Array(count);
    this.#seatOf = new Int32Array(count);
    this.#holder = new Int32Array(most);
    this.#tried = emptySet(words);
  }

  /** A new order of who is taken first: by rank, each shifted by chance up to `noise` ranks. */
  shuffle(random: Random, noise: number): void {
    const order = this.#order;
    const keys = this.#keys;
    for (let r = 0; r < keys.length; r++) keys[r] = r + noise * random.share();
    for (let k = 1; k < order.length; k++) {
      const r = order[k];
      let at = k;
      for (; at > 0 && keys[order[at - 1]] > keys[r]; at--) order[at] = order[at - 1];
      order[at] = r;
    }
  }

  /** False when the free people can't fill the places, by counting alone. */
  mayFill(need: number, free: Int32Array): boolean {
    const rows = this.#rows[need];
    const words = this.#words;
    let all = 0;
    for (let s = 0; s < rows.length; s++) {
      const { able, count } = rows[s];
      let fit = 0;
      for (let k = 0; k < words; k++) fit += bits(free[k] & able[k]);
      if (fit < count) return false;
      all += count;
    }
    if (rows.length === 1) return true;
    let fit = 0;
    for (let k = 0; k < words; k++) {
      let any = 0;
      for (let s = 0; s < rows.length; s++) any |= rows[s].able[k];
      fit += bits(free[k] & any);
    }
    return fit >= all;
  }

  /** Fills the places; the crew stands in `crew`. */
  fill(need: number, free: Int32Array): boolean {
    if (!this.mayFill(need, free)) return false;
    const rows = this.#rows[need];
    const taken = this.#taken.fill(0);
    const order = this.#order;
    this.count = 0;
    for (let s = 0; s < rows.length; s++) {
      const { able, count } = rows[s];
      let left = count;
      for (let k = 0; k < order.length && left > 0; k++) {
        const r = order[k];
        const bit = 1 << (r & 31);
        const w = r >> 5;
        if ((free[w] & able[w] & ~taken[w] & bit) === 0) continue;
        taken[w] |= bit;
        this.crew[this.count++] = r;
        left--;
      }
      if (left > 0) return this.#match(rows, free);
    }
    return true;
  }

  /** Seats a crew that was chosen elsewhere. @throws Error where it fills no seats */
  seat(need: number, crew: Int32Array): Int32Array {
    if (!this.#match(this.#rows[need], crew)) throw new Error('a crew was chosen that fills no seats');
    return this.crew.slice(0, this.count);
  }

  /** Who can take a place, places counted through the rows. */
  ableFor(need: number, place: number): Int32Array {
    return this.#able[need][place];
  }

  /** How many places there are. */
  places(need: number): number {
    return this.#able[need].length;
  }

  /** People in the order in which they are taken now. */
  get order(): Int32Array {
    return this.#order;
  }

  #match(rows: Row[], free: Int32Array): boolean {
    this.#seatOf.fill(-1);
    let place = 0;
    for (let s = 0; s < rows.length; s++) {
      for (let k = 0; k < rows[s].count; k++, place++) {
        this.#tried.fill(0);
        if (!this.#augment(place, rows, free)) return false;
      }
    }
    for (let k = 0; k < place; k++) this.crew[k] = this.#holder[k];
    this.count = place;
    return true;
  }

  #augment(place: number, rows: Row[], free: Int32Array): boolean {
    let s = 0;
    for (let left = place; left >= rows[s].count; s++) left -= rows[s].count;
    const { able } = rows[s];
    const order = this.#order;
    for (let k = 0; k < order.length; k++) {
      const r = order[k];
      const bit = 1 << (r & 31);
      const w = r >> 5;
      if ((free[w] & able[w] & bit) === 0 || (this.#tried[w] & bit) !== 0) continue;
      this.#tried[w] |= bit;
      const other = this.#seatOf[r];
      if (other >= 0 && !this.#augment(other, rows, free)) continue;
      this.#seatOf[r] = place;
      this.#holder[place] = r;
      return true;
    }
    return false;
  }
}
