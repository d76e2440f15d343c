import { NEVER } from '../calendar.js';
import { Kind } from '../model/kind.js';
import type { Minute } from '../problem.js';
import type { Course, Outgoing } from './course.js';
import { Events, WhatFor } from './events.js';
import type { Luck } from './luck.js';
import { Waiting } from './waiting.js';

/**
 * What has come to pass of every task in one future: which links are met, what has started and ended and what that
 * waited for, what may be taken up now, which limits and tools are in use.
 */
export class Standing {
  /** Start and end by task; NEVER where it did not come to that. */
  readonly start: Int32Array;
  readonly end: Int32Array;
  /** What each start waited for last: a task, or -1; and the kind of wait, one of `Held`, with skill or tool. */
  readonly driver: Int32Array;
  readonly heldBy: Uint8Array;
  readonly heldIndex: Int32Array;
  /** Since when a task could have started as far as links go. */
  readonly freeFrom: Int32Array;
  /** The minute at which the last task ended, and which one that was. */
  ready: Minute = NEVER;
  last = -1;
  undone = 0;
  readonly waiting: Waiting;
  readonly events: Events;
  /** Person-minutes or minutes still to be done, in truth and as the plan expects. */
  readonly left: Float64Array;
  readonly expected: Float64Array;
  /** When a crew last left it undone, or -1. */
  readonly stoppedAt: Int32Array;
  /** The task that ended last in this turnout, or -1. */
  lastDone = -1;

  readonly #course: Course;
  readonly #luck: Luck;
  readonly #state: Uint8Array;
  readonly #startWaits: Int32Array;
  readonly #endWaits: Int32Array;
  readonly #endFrom: Int32Array;
  readonly #again: Float64Array;
  readonly #toolsHeld: Int32Array;
  readonly #openNow: Int32Array;
  readonly #lineAt: Int32Array;
  readonly #lastUser: Int32Array;
  /** By need, or -1 where nobody sits. */
  readonly #scarcestSeat: Int32Array;

  constructor(course: Course, luck: Luck) {
    const { n, tools, needs } = course.model;
    this.#course = course;
    this.#luck = luck;
    this.waiting = new Waiting(course);
    this.events = new Events(n);
    this.start = new Int32Array(n);
    this.end = new Int32Array(n);
    this.driver = new Int32Array(n);
    this.heldBy = new Uint8Array(n);
    this.heldIndex = new Int32Array(n);
    this.freeFrom = new Int32Array(n);
    this.left = new Float64Array(n);
    this.expected = new Float64Array(n);
    this.stoppedAt = new Int32Array(n);
    this.#state = new Uint8Array(n);
    this.#startWaits = new Int32Array(n);
    this.#endWaits = new Int32Array(n);
    this.#endFrom = new Int32Array(n);
    this.#again = new Float64Array(n);
    this.#toolsHeld = new Int32Array(tools.length);
    this.#openNow = new Int32Array(course.openings.atMost.length);
    this.#lineAt = new Int32Array(course.openings.atMost.length);
    this.#lastUser = new Int32Array(needs.length);
    this.#scarcestSeat = Int32Array.from(needs, ({ seats }) => (seats.length > 0 ? seats[0].seat : -1));
  }

  /** As it stands at the plan's now. */
  clear(): void {
    const { model, startWaits, endWaits, endFrom, startFrom, openings } = this.#course;
    const { n, kind, begun, ended, now } = model;
    this.events.clear();
    this.waiting.clear();
    this.#startWaits.set(startWaits);
    this.#endWaits.set(endWaits);
    this.#endFrom.set(endFrom);
    this.freeFrom.set(startFrom);
    this.stoppedAt.fill(-1);
    this.left.set(this.#luck.amount);
    this.#again.set(this.#luck.again);
    this.expected.set(model.amount);
    this.driver.fill(-1);
    this.heldBy.fill(Held.Nothing);
    this.start.fill(NEVER);
    this.end.fill(NEVER);
    this.#openNow.set(openings.open);
    this.#lineAt.fill(0);
    this.#toolsHeld.fill(0);
    this.#lastUser.fill(-1);
    this.ready = now;
    this.last = -1;
    this.undone = 0;
    for (let i = 0; i < n; i++) {
      if (kind[i] === Kind.Done) {
        this.#state[i] = State.Done;
        this.start[i] = begun[i];
        this.end[i] = ended[i];
        continue;
      }
      this.undone++;
      this.#state[i] = State.Waiting;
    }
    for (let i = 0; i < n; i++) {
      if (this.#state[i] !== State.Waiting || this.#startWaits[i] > 0) continue;
      if (begun[i] > NEVER_BEGUN) {
        this.start[i] = begun[i];
        this.#takeUp(i, now);
      } else this.#release(i, now);
    }
  }

  /** Everything that happens by itself up to minute t. @param w the turnout that it is in, or -1 */
  until(t: Minute, w: number): void {
    const { events } = this;
    while (events.next <= t) {
      const at = events.next;
      const { task, what } = events;
      events.pop();
      if (what === WhatFor.Release) this.#release(task, at);
      else if (what === WhatFor.End) this.#done(task, at);
      else this.shown(task, at, w);
    }
  }

  /** Whether the limits let a task open what it opens at minute t. */
  mayOpen(i: number, t: Minute): boolean {
    const { atMost, from, spared, opens, line } = this.#course.openings;
    const row = opens[i];
    for (let k = 0; k < row.length; k += 2) {
      const l = row[k];
      const isSpared = t < from[l] && spared[l].has(i);
      if (!isSpared && this.#openNow[l] + row[k + 1] > atMost[l]) return false;
      if (line[l][this.#lineAt[l]] !== i) return false;
    }
    return true;
  }

  /** A tool that a task would lack at turnout w, or -1. */
  lackedTool(i: number, w: number): number {
    const { toolAt, toolPairs, calendar } = this.#course.model;
    const { toolRoom } = this.#course;
    for (let k = toolAt[i]; k < toolAt[i + 1]; k += 2) {
      const tool = toolPairs[k];
      if (this.#toolsHeld[tool] + toolPairs[k + 1] > toolRoom[tool * calendar.count + w]) return tool;
    }
    return -1;
  }

  holdTools(i: number, sign: number): void {
    const { toolAt, toolPairs } = this.#course.model;
    for (let k = toolAt[i]; k < toolAt[i + 1]; k += 2)
      this.#toolsHeld[toolPairs[k]] += sign * toolPairs[k + 1];
  }

  begin(i: number, t: Minute): void {
    if (this.start[i] !== NEVER) return;
    this.start[i] = t;
    const row = this.#course.openings.opens[i];
    for (let k = 0; k < row.length; k += 2) {
      this.#openNow[row[k]] += row[k + 1];
      this.#lineAt[row[k]]++;
    }
    // Held by people or tools: it goes on from whoever had them last.
    if (this.heldBy[i] >= Held.Skill) {
      const need = this.#course.model.need[i];
      const before = this.lastDone >= 0 ? this.lastDone : need >= 0 ? this.#lastUser[need] : -1;
      if (before >= 0) this.driver[i] = before;
    }
    const out = this.#course.fromStart;
    if (out.at[i] < out.at[i + 1]) this.#tell(out, i, t);
  }

  /** Time begins to pass for a task that nobody works at. */
  letPass(i: number, t: Minute): void {
    this.waiting.remove(i);
    this.begin(i, t);
    this.holdTools(i, 1);
    this.events.push(t + Math.round(this.left[i]), i, WhatFor.Shown);
  }

  /** The work is done once; the say-so may send it back. */
  shown(i: number, t: Minute, w: number): void {
    const need = this.#course.model.need[i];
    if (need >= 0) this.#lastUser[need] = i;
    this.lastDone = i;
    if (this.#course.model.kind[i] === Kind.Elapsed) {
      this.holdTools(i, -1);
      this.#again[i] = 0;
    }
    if (this.#again[i] > 0 && w >= 0) {
      this.left[i] = this.#again[i];
      this.expected[i] = this.#again[i];
      this.#again[i] = 0;
      this.stoppedAt[i] = t;
      this.waiting.add(i);
      return;
    }
    this.complete(i, t);
  }

  complete(i: number, t: Minute): void {
    this.waiting.remove(i);
    this.#state[i] = State.Ending;
    if (t > this.#endFrom[i]) this.#endFrom[i] = t;
    if (this.#endWaits[i] > 0) return;
    if (this.#endFrom[i] > t) this.events.push(this.#endFrom[i], i, WhatFor.End);
    else this.#done(i, t);
  }

  #done(i: number, t: Minute): void {
    this.#state[i] = State.Done;
    this.end[i] = t;
    this.undone--;
    if (t >= this.ready) {
      this.ready = t;
      this.last = i;
    }
    const row = this.#course.openings.closes[i];
    for (let k = 0; k < row.length; k += 2) this.#openNow[row[k]] -= row[k + 1];
    this.#tell(this.#course.fromEnd, i, t);
  }

  /** Tells those that wait for this start or end. */
  #tell(out: Outgoing, i: number, t: Minute): void {
    for (let k = out.at[i]; k < out.at[i + 1]; k++) {
      const j = out.task[k];
      const lag = out.lag[k];
      const from = lag === 0 ? t : this.#course.model.calendar.lagged(t, lag, out.working[k] !== 0);
      if (out.bindsEnd[k] !== 0) {
        if (from > this.#endFrom[j]) this.#endFrom[j] = from;
        if (--this.#endWaits[j] === 0 && this.#state[j] === State.Ending) this.complete(j, t);
        continue;
      }
      if (from >= this.freeFrom[j]) {
        this.freeFrom[j] = from;
        this.driver[j] = i;
      }
      if (--this.#startWaits[j] === 0) this.#release(j, t);
    }
  }

  /** All that its start waits for has happened by minute t. */
  #release(i: number, t: Minute): void {
    if (this.#state[i] === State.Waiting) {
      this.#state[i] = State.Released;
      const late = this.#course.model.kind[i] === Kind.Elapsed ? 0 : this.#luck.late[i];
      if (late > 0) this.freeFrom[i] = Math.max(this.freeFrom[i], this.#course.startFrom[i] + late);
    }
    if (this.freeFrom[i] > t) this.events.push(this.freeFrom[i], i, WhatFor.Release);
    else this.#takeUp(i, t);
  }

  #takeUp(i: number, t: Minute): void {
    const { model } = this.#course;
    switch (model.kind[i]) {
      case Kind.Mark:
        this.begin(i, t);
        this.complete(i, t);
        return;
      case Kind.Elapsed:
        this.left[i] += this.#luck.late[i];
        if (model.toolAt[i] < model.toolAt[i + 1]) break;
        this.begin(i, t);
        this.events.push(t + Math.max(0, Math.round(this.left[i])), i, WhatFor.Shown);
        return;
    }
    this.waiting.add(i);
  }

  /** Notes why a task must wait. */
  note(i: number, why: number, index: number): void {
    this.heldBy[i] = why;
    this.heldIndex[i] = index;
  }

  /** Notes the scarcest seat that nobody can take, or that hands are too few. */
  hold(i: number): void {
    if (this.start[i] !== NEVER) return;
    const seat = this.#scarcestSeat[this.#course.model.need[i]];
    this.note(i, seat >= 0 ? Held.Skill : Held.Crew, seat);
  }
}

/** Why a task had to wait after its links let it go. */
export const Held = { Nothing: 0, Calendar: 1, Opening: 2, Skill: 3, Crew: 4, Tool: 5 } as const;

const State = { Waiting: 0, Released: 1, Ending: 2, Done: 3 } as const;
const NEVER_BEGUN = -0x3fffffff;
