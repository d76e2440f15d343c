import { NEVER } from '../calendar.js';
import { CrewChooser } from '../generate/crew.js';
import type { Minute } from '../problem.js';
import { Attendance } from './attendance.js';
import type { Course } from './course.js';
import { Crews } from './crews.js';
import { HandOut } from './hand-out.js';
import type { Luck } from './luck.js';
import { Standing } from './standing.js';

/**
 * One future, lived through turnout by turnout as a crew leader would: who came is given the most urgent work that
 * they may do now, crews stay together until the work is done or somebody leaves, whoever is free takes the next.
 */
export class Replay {
  readonly standing: Standing;
  /** The minute at which the last task ended, or NEVER; and which that was, or -1. */
  ready: Minute = NEVER;
  last = -1;

  readonly #course: Course;
  readonly #attendance: Attendance;
  readonly #crews: Crews;
  readonly #handOut: HandOut;

  constructor(course: Course, luck: Luck) {
    this.#course = course;
    const standing = new Standing(course, luck);
    const attendance = new Attendance(course, luck);
    const chooser = new CrewChooser(course.model);
    const crews = new Crews(course, luck, { standing, attendance, chooser });
    this.standing = standing;
    this.#attendance = attendance;
    this.#crews = crews;
    this.#handOut = new HandOut(course, { standing, attendance, chooser, crews });
  }

  /** Lives through the first turnout alone. @param book person-minutes by rank * tasks + task are added to it */
  runFirst(book: Float64Array): void {
    const { calendar, now } = this.#course.model;
    this.#crews.book = book;
    this.#clear();
    const w = calendar.turnoutAfter(now);
    if (w < calendar.count && this.standing.undone > 0) this.#turnout(w);
    this.#crews.book = null;
  }

  /** Lives through the future that the luck has begun. */
  run(): void {
    const { standing } = this;
    const { calendar, now } = this.#course.model;
    this.#clear();
    for (let w = calendar.turnoutAfter(now); w < calendar.count && standing.undone > 0; w++) this.#turnout(w);
    // Time goes on passing after the last turnout.
    standing.until(NEVER - 1, -1);
    const isDone = standing.undone === 0;
    this.ready = isDone ? standing.ready : NEVER;
    this.last = isDone ? standing.last : -1;
  }

  #clear(): void {
    this.#crews.clear();
    this.#attendance.clear();
    this.standing.clear();
  }

  #turnout(w: number): void {
    const { calendar, now } = this.#course.model;
    const standing = this.standing;
    const attendance = this.#attendance;
    const crews = this.#crews;
    const from = Math.max(calendar.start[w], now);
    const to = calendar.end[w];
    standing.until(from, w);
    attendance.meet(w, from, to);
    this.#course.needs.at(w);
    crews.at(w);
    standing.lastDone = -1;
    this.#handOut.begin(w, to);
    this.#handOut.at(from);
    for (;;) {
      const t = crews.nextEnd(Math.min(standing.events.next, attendance.nextMove));
      if (t > to) break;
      crews.finish(t);
      standing.until(t, w);
      while (attendance.nextMove <= t) this.#move(t);
      if (t < to) this.#handOut.at(t);
    }
    for (let k = crews.count - 1; k >= 0; k--) crews.stop(k, to);
  }

  #move(t: Minute): void {
    const who = this.#attendance.move();
    if (who >= 0) {
      this.#attendance.arrive(who);
      return;
    }
    this.#crews.stopWith(~who, t);
    this.#attendance.leave(~who);
  }
}
