import { NEVER } from '../calendar.js';
import { weekOf } from '../model/presence.js';
import type { Minute } from '../problem.js';
import type { Course } from './course.js';
import type { Luck } from './luck.js';

/** Who is at the yard during one turnout, who of them is free, and who is still to come or to go; people as bits. */
export class Attendance {
  readonly here: Int32Array;
  readonly free: Int32Array;
  /** Who stays until the turnout's end. */
  readonly staying: Int32Array;
  /** Who has become free since somebody last asked. */
  readonly freed: Int32Array;

  readonly #course: Course;
  readonly #luck: Luck;
  readonly #words: number;
  readonly #capped: Int32Array;
  /** Minutes worked this week by those who have a cap, by rank. */
  readonly #weekUsed: Int32Array;
  #week = -1;
  /** Comings and goings still ahead: minute, rank, and 1 for one who comes; the earliest last. */
  #moves = 0;
  readonly #moveAt: Int32Array;
  readonly #moveRank: Int32Array;
  readonly #moveIn: Uint8Array;

  constructor(course: Course, luck: Luck) {
    const { crowd } = course.model;
    this.#course = course;
    this.#luck = luck;
    this.#words = crowd.words;
    this.#capped = crowd.capped;
    this.here = new Int32Array(crowd.words);
    this.free = new Int32Array(crowd.words);
    this.staying = new Int32Array(crowd.words);
    this.freed = new Int32Array(crowd.words);
    this.#weekUsed = new Int32Array(crowd.count);
    const moves = 2 * (luck.part.length + crowd.count);
    this.#moveAt = new Int32Array(moves);
    this.#moveRank = new Int32Array(moves);
    this.#moveIn = new Uint8Array(moves);
  }

  clear(): void {
    this.#weekUsed.fill(0);
    this.#week = -1;
  }

  /** Draws who comes to turnout w. */
  meet(w: number, from: Minute, to: Minute): void {
    const luck = this.#luck;
    luck.meet(w);
    const { crowd } = this.#course.model;
    const { here, staying } = this;
    for (let k = 0; k < this.#words; k++) {
      here[k] = luck.here[k];
      staying[k] = luck.here[k];
      this.freed[k] = 0;
    }
    this.#moves = 0;
    const { stays } = luck;
    for (let q = 0; q < luck.partCount; q++) {
      const k = luck.part[q];
      if (stays.to[k] <= from) continue;
      const r = stays.rank[k];
      if (stays.from[k] <= from) here[r >> 5] |= 1 << (r & 31);
      else this.#addMove(stays.from[k], r, 1);
      if (stays.to[k] < to) this.#addMove(stays.to[k], r, 0);
      else if (stays.from[k] <= from) staying[r >> 5] |= 1 << (r & 31);
    }
    if (crowd.anyCapped) this.#capWeek(from, to);
    for (let k = 0; k < this.#words; k++) this.free[k] = here[k];
  }

  #capWeek(from: Minute, to: Minute): void {
    const { crowd } = this.#course.model;
    const week = weekOf(this.#course.model, from);
    if (week !== this.#week) {
      this.#week = week;
      this.#weekUsed.fill(0);
    }
    for (let k = 0; k < this.#words; k++) {
      for (let pool = this.here[k] & crowd.capped[k]; pool !== 0; pool &= pool - 1) {
        const bit = pool & -pool;
        const r = (k << 5) + 31 - Math.clz32(bit);
        const left = crowd.weekCap[r] - this.#weekUsed[r];
        if (left >= to - from) continue;
        this.staying[k] &= ~bit;
        if (left <= 0) this.here[k] &= ~bit;
        else this.#addMove(from + left, r, 0);
      }
    }
  }

  #addMove(at: Minute, rank: number, comes: number): void {
    let k = this.#moves++;
    for (; k > 0 && this.#moveAt[k - 1] < at; k--) {
      this.#moveAt[k] = this.#moveAt[k - 1];
      this.#moveRank[k] = this.#moveRank[k - 1];
      this.#moveIn[k] = this.#moveIn[k - 1];
    }
    this.#moveAt[k] = at;
    this.#moveRank[k] = rank;
    this.#moveIn[k] = comes;
  }

  /** The minute at which somebody comes or goes next, or NEVER. */
  get nextMove(): Minute {
    return this.#moves > 0 ? this.#moveAt[this.#moves - 1] : NEVER;
  }

  /** Takes the next coming or going off the list. @returns the rank of who comes, or ~rank of who goes */
  move(): number {
    const q = --this.#moves;
    const r = this.#moveRank[q];
    return this.#moveIn[q] !== 0 ? r : ~r;
  }

  arrive(rank: number): void {
    const word = rank >> 5;
    const bit = 1 << (rank & 31);
    this.here[word] |= bit;
    this.free[word] |= bit;
    this.freed[word] |= bit;
  }

  leave(rank: number): void {
    const word = rank >> 5;
    const bit = 1 << (rank & 31);
    this.here[word] &= ~bit;
    this.free[word] &= ~bit;
  }

  /** These of word q have worked for so many minutes and are free again, where they are still here. */
  release(q: number, crew: number, minutes: Minute): void {
    const back = crew & this.here[q];
    this.free[q] |= back;
    this.freed[q] |= back;
    for (let pool = crew & this.#capped[q]; pool !== 0; pool &= pool - 1)
      this.#weekUsed[(q << 5) + 31 - Math.clz32(pool & -pool)] += minutes;
  }
}
