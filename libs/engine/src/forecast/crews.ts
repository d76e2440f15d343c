import type { CrewChooser } from '../generate/crew.js';
import { Kind } from '../model/kind.js';
import { bits, type Need } from '../model/people.js';
import type { Minute } from '../problem.js';
import type { Attendance } from './attendance.js';
import type { Course } from './course.js';
import type { Luck } from './luck.js';
import type { Standing } from './standing.js';

/** The crews at work now, one entry a task under way, in no order. */
export class Crews {
  count = 0;
  readonly task: Int32Array;
  /** When the work is done if nothing changes; of work in one go at most the turnout's end. */
  readonly end: Int32Array;
  /** `words` integers a crew. */
  readonly people: Int32Array;
  /** The least urgent place of those at work that people may be called away from, or -1. */
  hindmost = -1;
  /** Where set, person-minutes by rank * tasks + task are added to it. */
  book: Float64Array | null = null;

  /** By task: its place where people may be called away from it, else -1. */
  readonly callPlace: Int32Array;

  readonly #course: Course;
  readonly #luck: Luck;
  readonly #standing: Standing;
  readonly #attendance: Attendance;
  readonly #chooser: CrewChooser;
  readonly #words: number;
  readonly #from: Int32Array;
  readonly #pace: Float64Array;
  readonly #setUp: Int32Array;

  constructor(
    course: Course,
    luck: Luck,
    at: { standing: Standing; attendance: Attendance; chooser: CrewChooser },
  ) {
    const { n, crowd, kind, need } = course.model;
    this.#course = course;
    this.#luck = luck;
    this.#standing = at.standing;
    this.#attendance = at.attendance;
    this.#chooser = at.chooser;
    this.#words = crowd.words;
    this.task = new Int32Array(n);
    this.end = new Int32Array(n);
    this.people = new Int32Array(n * crowd.words);
    this.callPlace = course.placeOf.map((place, i) => (kind[i] === Kind.Split && need[i] >= 0 ? place : -1));
    this.#from = new Int32Array(n);
    this.#pace = new Float64Array(n);
    this.#setUp = new Int32Array(n);
  }

  clear(): void {
    this.count = 0;
    this.hindmost = -1;
  }

  /** A crew, as bits, or nobody, sets to work. @param pace person-minutes a minute; @param most minute it ends at most */
  setTo(i: number, crew: Int32Array | null, t: Minute, pace: number, setUp: Minute, most: Minute): void {
    const { waiting, left } = this.#standing;
    waiting.remove(i);
    const k = this.count++;
    const real = pace * this.#luck.ofTurnout(i, this.#turnout);
    this.task[k] = i;
    if (this.callPlace[i] > this.hindmost) this.hindmost = this.callPlace[i];
    this.#from[k] = t;
    this.#pace[k] = real;
    this.#setUp[k] = setUp;
    const end = t + setUp + Math.ceil(left[i] / real - 1e-6);
    this.end[k] = end > most ? most : end;
    const words = this.#words;
    const { free } = this.#attendance;
    for (let q = 0; q < words; q++) {
      const those = crew === null ? 0 : crew[q];
      this.people[k * words + q] = those;
      free[q] &= ~those;
    }
    this.#standing.holdTools(i, 1);
    this.#standing.begin(i, t);
  }

  #turnout = -1;

  /** Whatever is set to work from now on is so at turnout w. */
  at(w: number): void {
    this.#turnout = w;
  }

  /** The minute at which the next crew is done, or `t` where that is earlier. */
  nextEnd(t: Minute): Minute {
    let next = t;
    for (let k = 0; k < this.count; k++) if (this.end[k] < next) next = this.end[k];
    return next;
  }

  /** Those who are done by minute t. */
  finish(t: Minute): void {
    for (let k = this.count - 1; k >= 0; k--) {
      if (this.end[k] > t) continue;
      const i = this.task[k];
      this.#put(k, t);
      this.#standing.left[i] = 0;
      this.#standing.shown(i, t, this.#turnout);
    }
  }

  /** Takes a crew off a task that is not done. */
  stop(k: number, t: Minute): void {
    const { left, stoppedAt, waiting } = this.#standing;
    const i = this.task[k];
    const minutes = t - this.#from[k] - this.#setUp[k];
    if (minutes > 0) left[i] = Math.max(1e-3, left[i] - minutes * this.#pace[k]);
    stoppedAt[i] = t;
    this.#put(k, t);
    waiting.add(i);
  }

  /** Stops all those crews that somebody is in. */
  stopWith(rank: number, t: Minute): void {
    const word = rank >> 5;
    const bit = 1 << (rank & 31);
    for (let k = this.count - 1; k >= 0; k--)
      if ((this.people[k * this.#words + word] & bit) !== 0) this.stop(k, t);
  }

  #put(k: number, t: Minute): void {
    const words = this.#words;
    const { people } = this;
    for (let q = 0; q < words; q++) {
      if (this.book !== null) this.enter(this.book, k, q, t);
      this.#attendance.release(q, people[k * words + q], t - this.#from[k]);
    }
    const i = this.task[k];
    this.#standing.holdTools(i, -1);
    const last = --this.count;
    if (k !== last) this.#fillGap(k, last);
    if (this.callPlace[i] !== this.hindmost) return;
    let hindmost = -1;
    for (let j = 0; j < last; j++) {
      const place = this.callPlace[this.task[j]];
      if (place > hindmost) hindmost = place;
    }
    this.hindmost = hindmost;
  }

  #fillGap(k: number, last: number): void {
    const words = this.#words;
    const { people } = this;
    this.task[k] = this.task[last];
    this.#from[k] = this.#from[last];
    this.end[k] = this.end[last];
    this.#pace[k] = this.#pace[last];
    this.#setUp[k] = this.#setUp[last];
    for (let q = 0; q < words; q++) people[k * words + q] = people[last * words + q];
  }

  enter(book: Float64Array, k: number, q: number, t: Minute): void {
    const { n } = this.#course.model;
    for (let pool = this.people[k * this.#words + q]; pool !== 0; pool &= pool - 1)
      book[((q << 5) + 31 - Math.clz32(pool & -pool)) * n + this.task[k]] += t - this.#from[k];
  }

  /** Whoever is free and counts joins crew k, as far as there is room. */
  grow(k: number, t: Minute): void {
    const { model, needs } = this.#course;
    const i = this.task[k];
    if (model.minutes[i] >= 0 || model.need[i] < 0) return;
    const need = needs.list[model.need[i]];
    const words = this.#words;
    const { people } = this;
    let size = 0;
    let guided = 0;
    for (let q = 0; q < words; q++) {
      size += bits(people[k * words + q]);
      guided |= people[k * words + q] & need.alone[q];
    }
    let room = model.most[i] - size;
    if (room <= 0) return;
    const { free } = this.#attendance;
    let joined = false;
    for (let q = 0; q < words; q++) {
      if (this.book !== null) this.enter(this.book, k, q, t);
      let pool = free[q] & need.hands[q];
      if (guided === 0) pool &= ~need.learners[q];
      for (; pool !== 0 && room > 0; room--) {
        const bit = pool & -pool;
        pool ^= bit;
        free[q] ^= bit;
        people[k * words + q] |= bit;
        joined = true;
      }
    }
    if (joined || this.book !== null) this.#faster(k, i, need, t);
  }

  /** Crew k has grown at minute t. */
  #faster(k: number, i: number, need: Need, t: Minute): void {
    const { left } = this.#standing;
    const minutes = t - this.#from[k] - this.#setUp[k];
    if (minutes > 0) {
      left[i] = Math.max(1e-3, left[i] - minutes * this.#pace[k]);
      this.#setUp[k] = 0;
    } else this.#setUp[k] = -minutes;
    this.#from[k] = t;
    this.#pace[k] =
      this.#chooser.paceOf(i, need, this.people, k * this.#words) * this.#luck.ofTurnout(i, this.#turnout);
    const end = t + this.#setUp[k] + Math.ceil(left[i] / this.#pace[k] - 1e-6);
    this.end[k] = this.#course.model.kind[i] === Kind.Split ? end : Math.min(end, this.end[k]);
  }
}
