import { NEVER } from '../calendar.js';
import type { CrewChooser } from '../generate/crew.js';
import { Kind } from '../model/kind.js';
import type { Need } from '../model/people.js';
import type { Minute } from '../problem.js';
import type { Attendance } from './attendance.js';
import type { Course } from './course.js';
import type { Crews } from './crews.js';
import { Held, type Standing } from './standing.js';
import type { Waiting } from './waiting.js';

/**
 * How work is given out at one minute of a turnout: to whoever is free, the most urgent first; people are called away
 * from less urgent work where that makes up a crew; whoever is then still free lends a hand where one counts.
 *
 * Nothing is looked ahead but that work which has to be done in one go must be expected to fit before the turnout's
 * end, and that openers go in the plan's order where a limit binds them.
 */
export class HandOut {
  readonly #course: Course;
  readonly #need: Int32Array;
  readonly #needs: readonly Need[];
  readonly #taskAt: Int32Array;
  readonly #placeOf: Int32Array;
  readonly #standing: Standing;
  readonly #waiting: Waiting;
  readonly #attendance: Attendance;
  readonly #crews: Crews;
  readonly #chooser: CrewChooser;
  readonly #words: number;
  readonly #pool: Int32Array;
  /** 1 where a task asks for people and nothing else: no opening, no tool, no say-so. */
  readonly #isPlain: Uint8Array;
  #turnout = -1;
  #to: Minute = NEVER;

  constructor(
    course: Course,
    at: { standing: Standing; attendance: Attendance; crews: Crews; chooser: CrewChooser },
  ) {
    const { crowd, need, kind, toolAt } = course.model;
    this.#course = course;
    this.#need = need;
    this.#needs = course.needs.list;
    this.#taskAt = course.taskAt;
    this.#placeOf = course.placeOf;
    this.#standing = at.standing;
    this.#waiting = at.standing.waiting;
    this.#attendance = at.attendance;
    this.#crews = at.crews;
    this.#chooser = at.chooser;
    this.#words = crowd.words;
    this.#pool = new Int32Array(crowd.words);
    const plain = (i: number) =>
      need[i] >= 0 &&
      kind[i] !== Kind.SaySo &&
      course.openings.opens[i].length === 0 &&
      toolAt[i] === toolAt[i + 1];
    this.#isPlain = Uint8Array.from(need, (_, i) => (plain(i) ? 1 : 0));
  }

  /** Others are here than before: turnout w, which ends at minute `to`. */
  begin(w: number, to: Minute): void {
    this.#turnout = w;
    this.#to = to;
    this.#waiting.unblockAll();
  }

  /** Gives work to whoever is free at minute t. */
  at(t: Minute): void {
    const waiting = this.#waiting;
    waiting.freed(this.#attendance.freed);
    let woken: number;
    do {
      woken = waiting.woken;
      this.#tryApart(t);
      this.#tryReady(t);
      // A start or a say-so may have set others free at the same minute.
    } while (waiting.woken !== woken);
    this.#joinIn(t);
  }

  #tryApart(t: Minute): void {
    const { apart } = this.#waiting;
    if (this.#waiting.apartCount === 0) return;
    for (let q = 0; q < apart.length; q++) {
      for (let pool = apart[q]; pool !== 0; pool &= pool - 1)
        this.#try(this.#course.taskAt[(q << 5) + 31 - Math.clz32(pool & -pool)], t);
    }
  }

  #tryReady(t: Minute): void {
    const waiting = this.#waiting;
    const { ready, blocked } = waiting;
    const taskAt = this.#taskAt;
    for (let q = waiting.first; q < waiting.end; q++) {
      let rest = ready[q];
      for (;;) {
        // What is blocked may change with every task that is taken up.
        const open = rest & ~blocked[q];
        if (open === 0) break;
        const bit = open & -open;
        rest &= ~(bit | (bit - 1));
        const place = (q << 5) + 31 - Math.clz32(bit);
        if (this.#nobodyFor(place)) return;
        this.#try(taskAt[place], t);
      }
    }
  }

  /** Nobody is free, and nobody works at anything less urgent that may be stopped. */
  #nobodyFor(place: number): boolean {
    const { free } = this.#attendance;
    for (let q = 0; q < this.#words; q++) if (free[q] !== 0) return false;
    return this.#crews.hindmost <= place;
  }

  #try(i: number, t: Minute): void {
    const need = this.#need[i];
    if (this.#isPlain[i] === 0) this.#tryOther(i, need, t);
    else this.#findCrew(i, this.#needs[need], t);
  }

  #findCrew(i: number, need: Need, t: Minute): void {
    const { free } = this.#attendance;
    const lacking = this.#chooser.lacking(need, free, 0);
    if (lacking !== null) this.#callAway(i, need, lacking, t);
    else if (this.#seat(i, need, free, t, null)) this.#start(i, t);
  }

  #tryOther(i: number, need: number, t: Minute): void {
    const standing = this.#standing;
    const { model, openings, needs } = this.#course;
    const kind = model.kind[i];
    if (kind === Kind.SaySo) {
      if (this.#chooser.choose(i, needs.list[need], this.#attendance.here, 0, 0, t, t, null, null, null)) {
        standing.begin(i, t);
        standing.complete(i, t);
      } else standing.hold(i);
      return;
    }
    if (standing.start[i] === NEVER && openings.opens[i].length > 0 && !standing.mayOpen(i, t)) {
      standing.note(i, Held.Opening, -1);
      return;
    }
    const lacked = standing.lackedTool(i, this.#turnout);
    if (lacked >= 0) standing.note(i, Held.Tool, lacked);
    else if (kind === Kind.Elapsed) standing.letPass(i, t);
    else if (need < 0) this.#setTo(i, null, t, 1);
    else this.#findCrew(i, needs.list[need], t);
  }

  /**
   * Calls people away from less urgent work that may be stopped, where that makes up the crew; least urgent first.
   * @param lacking of whom too few are free
   */
  #callAway(i: number, need: Need, lacking: Int32Array, t: Minute): void {
    const standing = this.#standing;
    const { free } = this.#attendance;
    const crews = this.#crews;
    const { task, callPlace } = crews;
    const words = this.#words;
    const pool = this.#pool;
    const place = this.#placeOf[i];
    for (let q = 0; q < words; q++) pool[q] = free[q];
    // One crew after the other, the least urgent first.
    let still: Int32Array | null = lacking;
    for (let above = crews.hindmost; ;) {
      if (above <= place) {
        standing.hold(i);
        this.#waiting.block(i, still, pool);
        return;
      }
      let least = -1;
      let next = -1;
      for (let k = 0; k < crews.count; k++) {
        const at = callPlace[task[k]];
        if (at === above) least = k;
        else if (at < above && at > next) next = at;
      }
      above = next;
      for (let q = 0; q < words; q++) pool[q] |= crews.people[least * words + q];
      still = this.#chooser.lacking(need, pool, 0);
      if (still === null) break;
    }
    if (!this.#seat(i, need, pool, t, free)) return;
    const { crew } = this.#chooser;
    for (let k = crews.count - 1; k >= 0; k--) {
      let shared = 0;
      for (let q = 0; q < words; q++) shared |= crew[q] & crews.people[k * words + q];
      if (shared !== 0) crews.stop(k, t);
    }
    // Others may find somebody among those who were called away and are not needed.
    this.#waiting.freed(this.#attendance.freed);
    this.#start(i, t);
  }

  /** Whoever is still free lends a hand where one counts, most urgent first. */
  #joinIn(t: Minute): void {
    const placeOf = this.#placeOf;
    const words = this.#words;
    const { free } = this.#attendance;
    const crews = this.#crews;
    for (let place = -1; ;) {
      let idle = 0;
      for (let q = 0; q < words; q++) idle |= free[q];
      if (idle === 0) return;
      let next = -1;
      for (let k = 0; k < crews.count; k++) {
        const at = placeOf[crews.task[k]];
        if (at > place && (next < 0 || at < placeOf[crews.task[next]])) next = k;
      }
      if (next < 0) return;
      place = placeOf[crews.task[next]];
      crews.grow(next, t);
    }
  }

  /** Chooses a crew for task i among some people, rather out of `wish`; false where there is none or it can't begin now. */
  #seat(i: number, need: Need, people: Int32Array, t: Minute, wish: Int32Array | null): boolean {
    const standing = this.#standing;
    const { model } = this.#course;
    const to = this.#to;
    const kind = model.kind[i];
    const oneGo = kind === Kind.Bout || kind === Kind.Block;
    const isWork = model.minutes[i] < 0;
    const chooser = this.#chooser;
    const those = oneGo ? this.#staying(people) : people;
    if (!chooser.choose(i, need, those, 0, isWork ? model.efficient[i] : 0, t, to, null, wish, null)) {
      standing.hold(i);
      return false;
    }
    if (!oneGo) {
      // Nobody begins what the turnout's last minutes are too short for.
      if (to - t >= LEAST_STRETCH || to - model.calendar.start[this.#turnout] < LONG_TURNOUT) return true;
      return standing.left[i] <= (to - t - this.#setUp(i, t)) * chooser.pace;
    }
    // Judged by what the plan expects; how long it really takes shows only while it is done.
    const expected = Math.ceil(standing.expected[i] / chooser.pace);
    if (t + expected <= to) return true;
    // More hands than are efficient, where it would not fit else.
    if (isWork && model.most[i] > model.efficient[i]) {
      const isMore = chooser.choose(i, need, those, 0, model.most[i], t, to, null, wish, null);
      if (isMore && t + Math.ceil(standing.expected[i] / chooser.pace) <= to) return true;
    }
    // What no turnout is long enough for is begun as early in one as can be.
    if (t <= model.calendar.start[this.#turnout] && expected > model.calendar.longest) return true;
    standing.note(i, Held.Calendar, -1);
    return false;
  }

  #staying(people: Int32Array): Int32Array {
    const { staying } = this.#attendance;
    for (let k = 0; k < this.#words; k++) this.#pool[k] = people[k] & staying[k];
    return this.#pool;
  }

  /** The crew chosen last sets to work. */
  #start(i: number, t: Minute): void {
    this.#setTo(i, this.#chooser.crew, t, this.#chooser.pace);
  }

  #setTo(i: number, crew: Int32Array | null, t: Minute, pace: number): void {
    const kind = this.#course.model.kind[i];
    const oneGo = kind === Kind.Bout || kind === Kind.Block;
    this.#crews.setTo(i, crew, t, pace, this.#setUp(i, t), oneGo ? this.#to : NEVER);
  }

  /** Minutes that it takes to take up again what was left. */
  #setUp(i: number, t: Minute): Minute {
    const stoppedAt = this.#standing.stoppedAt[i];
    return stoppedAt >= 0 && stoppedAt !== t ? this.#course.model.setUp[i] : 0;
  }
}

/** As the plans have it: a shorter stretch at the end of a turnout is not begun. */
const LEAST_STRETCH = 15;
const LONG_TURNOUT = 120;
