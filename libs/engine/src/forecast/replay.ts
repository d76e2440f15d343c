import { NEVER } from '../calendar.js';
import { CrewChooser } from '../generate/crew.js';
import { Kind } from '../model/kind.js';
import { weekOf } from '../model/presence.js';
import { bits, type Need } from '../model/people.js';
import type { Minute } from '../problem.js';
import type { Course, Outgoing } from './course.js';
import { Events, WhatFor } from './events.js';
import type { Luck } from './luck.js';

/**
 * One future, lived through turnout by turnout as a crew leader would: who came is given the most urgent work that
 * they may do now, crews stay together until the work is done or somebody leaves, whoever is free takes the next.
 *
 * Nothing is looked ahead but that work which has to be done in one go must be expected to fit before the turnout's
 * end, and that openers go in the plan's order where a limit binds them.
 */
export class Replay {
  /** Start and end by task; NEVER where it did not come to that. */
  readonly start: Int32Array;
  readonly end: Int32Array;
  /** What each start waited for last: a task, or -1; and the kind of wait, one of `Held`, with skill or tool. */
  readonly driver: Int32Array;
  readonly heldBy: Uint8Array;
  readonly heldIndex: Int32Array;
  /** Since when a task could have started as far as links go. */
  readonly freeFrom: Int32Array;
  /** The minute at which the last task ended, or NEVER. */
  ready: Minute = NEVER;
  last = -1;

  readonly #course: Course;
  readonly #luck: Luck;
  readonly #words: number;
  readonly #chooser: CrewChooser;
  readonly #events: Events;
  readonly #state: Uint8Array;
  readonly #left: Float64Array;
  readonly #expected: Float64Array;
  readonly #startWaits: Int32Array;
  readonly #endWaits: Int32Array;
  readonly #endFrom: Int32Array;
  readonly #readyBits: Int32Array;
  readonly #apartBits: Int32Array;
  readonly #stoppedAt: Int32Array;
  readonly #calledAt: Int32Array;
  readonly #again: Float64Array;
  #undone = 0;
  // Who is free, and who is there.
  readonly #free: Int32Array;
  readonly #here: Int32Array;
  readonly #pool: Int32Array;
  readonly #staying: Int32Array;
  // What runs now.
  #running = 0;
  readonly #runTask: Int32Array;
  readonly #runFrom: Int32Array;
  readonly #runEnd: Int32Array;
  readonly #runPace: Float64Array;
  readonly #runSetUp: Int32Array;
  readonly #runCrew: Int32Array;
  readonly #toolsHeld: Int32Array;
  readonly #openNow: Int32Array;
  readonly #lineAt: Int32Array;
  readonly #failed: Int32Array;
  #pass = 0;
  #woken = 0;
  readonly #lastUser: Int32Array;
  #lastDone = -1;
  #book: Float64Array | null = null;
  readonly #weekUsed: Int32Array;
  #week = -1;
  // Comings and goings of the turnout: minute and rank.
  #movesLeft = 0;
  readonly #moveAt: Int32Array;
  readonly #moveRank: Int32Array;
  readonly #moveIn: Uint8Array;

  constructor(course: Course, luck: Luck) {
    const { model } = course;
    const { n, crowd, tools, needs } = model;
    const runs = n;
    this.#course = course;
    this.#luck = luck;
    this.#words = crowd.words;
    this.#chooser = new CrewChooser(model);
    this.#events = new Events(n);
    this.start = new Int32Array(n);
    this.end = new Int32Array(n);
    this.driver = new Int32Array(n);
    this.heldBy = new Uint8Array(n);
    this.heldIndex = new Int32Array(n);
    this.freeFrom = new Int32Array(n);
    this.#state = new Uint8Array(n);
    this.#left = new Float64Array(n);
    this.#expected = new Float64Array(n);
    this.#startWaits = new Int32Array(n);
    this.#endWaits = new Int32Array(n);
    this.#endFrom = new Int32Array(n);
    this.#readyBits = new Int32Array(Math.ceil(n / 32));
    this.#apartBits = new Int32Array(Math.ceil(n / 32));
    this.#stoppedAt = new Int32Array(n);
    this.#calledAt = new Int32Array(n);
    this.#again = new Float64Array(n);
    this.#free = new Int32Array(crowd.words);
    this.#here = new Int32Array(crowd.words);
    this.#pool = new Int32Array(crowd.words);
    this.#staying = new Int32Array(crowd.words);
    this.#runTask = new Int32Array(runs);
    this.#runFrom = new Int32Array(runs);
    this.#runEnd = new Int32Array(runs);
    this.#runPace = new Float64Array(runs);
    this.#runSetUp = new Int32Array(runs);
    this.#runCrew = new Int32Array(runs * crowd.words);
    this.#toolsHeld = new Int32Array(tools.length);
    this.#openNow = new Int32Array(course.openings.atMost.length);
    this.#lineAt = new Int32Array(course.openings.atMost.length);
    this.#failed = new Int32Array(needs.length);
    this.#lastUser = new Int32Array(needs.length);
    this.#weekUsed = new Int32Array(crowd.count);
    const moves = 2 * (luck.part.length + crowd.count);
    this.#moveAt = new Int32Array(moves);
    this.#moveRank = new Int32Array(moves);
    this.#moveIn = new Uint8Array(moves);
  }

  /** Lives through the first turnout alone. @param book person-minutes by rank * tasks + task are added to it */
  runFirst(book: Float64Array): void {
    const { calendar, now } = this.#course.model;
    this.#book = book;
    this.#reset();
    const w = calendar.turnoutAfter(now);
    if (w < calendar.count && this.#undone > 0) this.#turnout(w);
    this.#book = null;
  }

  /** Lives through the future that the luck has begun. */
  run(): void {
    const { model } = this.#course;
    const { calendar, now } = model;
    this.#reset();
    for (let w = calendar.turnoutAfter(now); w < calendar.count && this.#undone > 0; w++) this.#turnout(w);
    // Time goes on passing after the last turnout.
    this.#until(NEVER - 1, -1);
    if (this.#undone === 0) return;
    this.ready = NEVER;
    this.last = -1;
  }

  #reset(): void {
    const { model, startWaits, endWaits, endFrom, startFrom, openings } = this.#course;
    const { n, kind, begun, ended, now } = model;
    this.#events.clear();
    this.#startWaits.set(startWaits);
    this.#endWaits.set(endWaits);
    this.#endFrom.set(endFrom);
    this.freeFrom.set(startFrom);
    this.#readyBits.fill(0);
    this.#apartBits.fill(0);
    this.#stoppedAt.fill(-1);
    this.#calledAt.fill(-1);
    this.#left.set(this.#luck.amount);
    this.#again.set(this.#luck.again);
    this.#expected.set(model.amount);
    this.driver.fill(-1);
    this.heldBy.fill(Held.Nothing);
    this.start.fill(NEVER);
    this.end.fill(NEVER);
    this.#openNow.set(openings.open);
    this.#lineAt.fill(0);
    this.#toolsHeld.fill(0);
    this.#failed.fill(0);
    this.#pass = 0;
    this.#lastUser.fill(-1);
    this.#weekUsed.fill(0);
    this.#week = -1;
    this.#running = 0;
    this.ready = now;
    this.last = -1;
    this.#undone = 0;
    for (let i = 0; i < n; i++) {
      if (kind[i] === Kind.Done) {
        this.#state[i] = State.Done;
        this.start[i] = begun[i];
        this.end[i] = ended[i];
        continue;
      }
      this.#undone++;
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

  #turnout(w: number): void {
    const { calendar, now } = this.#course.model;
    const from = Math.max(calendar.start[w], now);
    const to = calendar.end[w];
    this.#until(from, w);
    this.#muster(w, from, to);
    this.#lastDone = -1;
    this.#handOut(from, to, w);
    for (;;) {
      let t = this.#events.next;
      for (let k = 0; k < this.#running; k++) if (this.#runEnd[k] < t) t = this.#runEnd[k];
      if (this.#movesLeft > 0 && this.#moveAt[this.#movesLeft - 1] < t) t = this.#moveAt[this.#movesLeft - 1];
      if (t > to) break;
      for (let k = this.#running - 1; k >= 0; k--) if (this.#runEnd[k] <= t) this.#finish(k, t, w);
      this.#until(t, w);
      while (this.#movesLeft > 0 && this.#moveAt[this.#movesLeft - 1] <= t) this.#move(t);
      if (t < to) this.#handOut(t, to, w);
    }
    for (let k = this.#running - 1; k >= 0; k--) this.#stop(k, to);
  }

  /** Everything that happens by itself up to minute t. */
  #until(t: Minute, w: number): void {
    const events = this.#events;
    while (events.next <= t) {
      const at = events.next;
      const task = events.task;
      const what = events.what;
      events.pop();
      if (what === WhatFor.Release) this.#release(task, at);
      else if (what === WhatFor.End) this.#done(task, at);
      else this.#shown(task, at, w);
    }
  }

  /** Who is there at the turnout's start, and who comes and goes later. */
  #muster(w: number, from: Minute, to: Minute): void {
    const luck = this.#luck;
    luck.meet(w);
    const { crowd } = this.#course.model;
    const here = this.#here;
    here.set(luck.here);
    this.#staying.set(luck.here);
    this.#movesLeft = 0;
    const { stays } = luck;
    for (let q = 0; q < luck.partCount; q++) {
      const k = luck.part[q];
      if (stays.to[k] <= from) continue;
      const r = stays.rank[k];
      if (stays.from[k] <= from) here[r >> 5] |= 1 << (r & 31);
      else this.#addMove(stays.from[k], r, 1);
      if (stays.to[k] < to) this.#addMove(stays.to[k], r, 0);
      else if (stays.from[k] <= from) this.#staying[r >> 5] |= 1 << (r & 31);
    }
    if (crowd.anyCapped) this.#capWeek(from, to);
    this.#free.set(here);
  }

  #capWeek(from: Minute, to: Minute): void {
    const { crowd } = this.#course.model;
    const week = weekOf(this.#course.model, from);
    if (week !== this.#week) {
      this.#week = week;
      this.#weekUsed.fill(0);
    }
    for (let k = 0; k < this.#words; k++) {
      for (let pool = this.#here[k] & crowd.capped[k]; pool !== 0; pool &= pool - 1) {
        const bit = pool & -pool;
        const r = (k << 5) + 31 - Math.clz32(bit);
        const left = crowd.weekCap[r] - this.#weekUsed[r];
        if (left >= to - from) continue;
        this.#staying[k] &= ~bit;
        if (left <= 0) this.#here[k] &= ~bit;
        else this.#addMove(from + left, r, 0);
      }
    }
  }

  /** Kept in order of time, the earliest last. */
  #addMove(at: Minute, rank: number, comes: number): void {
    let k = this.#movesLeft++;
    for (; k > 0 && this.#moveAt[k - 1] < at; k--) {
      this.#moveAt[k] = this.#moveAt[k - 1];
      this.#moveRank[k] = this.#moveRank[k - 1];
      this.#moveIn[k] = this.#moveIn[k - 1];
    }
    this.#moveAt[k] = at;
    this.#moveRank[k] = rank;
    this.#moveIn[k] = comes;
  }

  #move(t: Minute): void {
    const q = --this.#movesLeft;
    const r = this.#moveRank[q];
    const word = r >> 5;
    const bit = 1 << (r & 31);
    if (this.#moveIn[q] !== 0) {
      this.#here[word] |= bit;
      this.#free[word] |= bit;
      return;
    }
    for (let k = this.#running - 1; k >= 0; k--) {
      if ((this.#runCrew[k * this.#words + word] & bit) !== 0) this.#stop(k, t);
    }
    this.#here[word] &= ~bit;
    this.#free[word] &= ~bit;
  }

  /** Gives work to whoever is free, the most urgent first. */
  #handOut(t: Minute, to: Minute, w: number): void {
    const { taskAt } = this.#course;
    const ready = this.#readyBits;
    const apart = this.#apartBits;
    this.#pass++;
    // A start or a say-so may set others free at the same minute.
    let woken: number;
    do {
      woken = this.#woken;
      for (let q = 0; q < apart.length; q++) {
        for (let pool = apart[q]; pool !== 0; pool &= pool - 1) {
          this.#try(taskAt[(q << 5) + 31 - Math.clz32(pool & -pool)], t, to, w);
        }
      }
      scan: for (let q = 0; q < ready.length; q++) {
        for (let pool = ready[q]; pool !== 0; pool &= pool - 1) {
          const place = (q << 5) + 31 - Math.clz32(pool & -pool);
          if (this.#nobodyFor(place)) break scan;
          this.#try(taskAt[place], t, to, w);
        }
      }
    } while (this.#woken !== woken);
    this.#joinIn(t, w);
  }

  /** Nobody is free, and nobody works at anything less urgent that may be stopped. */
  #nobodyFor(place: number): boolean {
    const free = this.#free;
    for (let q = 0; q < free.length; q++) if (free[q] !== 0) return false;
    const { placeOf, model } = this.#course;
    for (let k = 0; k < this.#running; k++) {
      const j = this.#runTask[k];
      if (placeOf[j] > place && model.kind[j] === Kind.Split) return false;
    }
    return true;
  }

  #try(i: number, t: Minute, to: Minute, w: number): void {
    const { model, openings } = this.#course;
    const need = model.need[i];
    const kind = model.kind[i];
    if (kind === Kind.SaySo) {
      if (!this.#seat(i, model.needs[need], this.#here, t, t, w, 0)) {
        this.#hold(i, need);
        return;
      }
      this.#begin(i, t);
      this.#complete(i, t);
      return;
    }
    if (need >= 0) {
      if (this.#failed[need] === this.#pass) return;
      if (!this.#chooser.mayDo(model.needs[need], this.#free, 0) && !this.#callAway(i, need, t)) {
        this.#failed[need] = this.#pass;
        this.#hold(i, need);
        return;
      }
    }
    if (this.start[i] === NEVER && openings.opens[i].length > 0 && !this.#mayOpen(i)) {
      this.#note(i, Held.Opening, -1);
      return;
    }
    for (let k = model.toolAt[i]; k < model.toolAt[i + 1]; k += 2) {
      const tool = model.toolPairs[k];
      if (
        this.#toolsHeld[tool] + model.toolPairs[k + 1] >
        this.#course.toolRoom[tool * model.calendar.count + w]
      ) {
        this.#note(i, Held.Tool, tool);
        return;
      }
    }
    if (kind === Kind.Elapsed) {
      this.#setReady(i, false);
      this.#begin(i, t);
      this.#holdTools(i, 1);
      this.#events.push(t + Math.round(this.#left[i]), i, WhatFor.Shown);
      return;
    }
    this.#assign(i, need, kind, t, to, w);
  }

  /** Calls people away from less urgent work that may be stopped, where that makes up the crew; least urgent first. */
  #callAway(i: number, need: number, t: Minute): boolean {
    const { model, placeOf } = this.#course;
    // Once a minute is enough: what then fails for another reason would fail again.
    if (this.#calledAt[i] === t) return false;
    this.#calledAt[i] = t;
    const words = this.#words;
    const place = placeOf[i];
    const pool = this.#pool;
    for (let q = 0; q < words; q++) pool[q] = this.#free[q];
    let any = false;
    for (let k = 0; k < this.#running; k++) {
      const j = this.#runTask[k];
      if (placeOf[j] <= place || model.kind[j] !== Kind.Split || model.need[j] < 0) continue;
      for (let q = 0; q < words; q++) pool[q] |= this.#runCrew[k * words + q];
      any = true;
    }
    if (!any || !this.#chooser.mayDo(model.needs[need], pool, 0)) return false;
    while (!this.#chooser.mayDo(model.needs[need], this.#free, 0)) {
      let least = -1;
      for (let k = 0; k < this.#running; k++) {
        const j = this.#runTask[k];
        if (placeOf[j] <= place || model.kind[j] !== Kind.Split || model.need[j] < 0) continue;
        if (least < 0 || placeOf[j] > placeOf[this.#runTask[least]]) least = k;
      }
      this.#stop(least, t);
      // Others may find somebody among those who were called away and are not needed.
      this.#pass++;
    }
    return true;
  }

  /** Whoever is still free lends a hand where one counts, most urgent first. */
  #joinIn(t: Minute, w: number): void {
    const { model, placeOf, passing } = this.#course;
    const words = this.#words;
    const free = this.#free;
    for (let place = -1; ;) {
      let idle = 0;
      for (let q = 0; q < words; q++) idle |= free[q];
      if (idle === 0) return;
      let next = -1;
      for (let k = 0; k < this.#running; k++) {
        const at = placeOf[this.#runTask[k]];
        if (at > place && (next < 0 || at < placeOf[this.#runTask[next]])) next = k;
      }
      if (next < 0) return;
      const i = this.#runTask[next];
      place = placeOf[i];
      if (model.minutes[i] >= 0 || model.need[i] < 0) continue;
      const need = model.needs[model.need[i]];
      const gate = passing[need.gate];
      let size = 0;
      let guided = 0;
      for (let q = 0; q < words; q++) {
        size += bits(this.#runCrew[next * words + q]);
        guided |= this.#runCrew[next * words + q] & need.alone[q];
      }
      let room = model.most[i] - size;
      if (room <= 0) continue;
      let joined = false;
      for (let q = 0; q < words; q++) {
        if (this.#book !== null) this.#enter(this.#book, next, q, t);
        let pool = free[q] & need.hands[q];
        if (gate !== null) pool &= gate[w * words + q];
        if (guided === 0) pool &= ~need.learners[q];
        for (; pool !== 0 && room > 0; room--) {
          const bit = pool & -pool;
          pool ^= bit;
          free[q] ^= bit;
          this.#runCrew[next * words + q] |= bit;
          joined = true;
        }
      }
      if (joined || this.#book !== null) this.#faster(next, i, need, t, w);
    }
  }

  /** The crew of run k has grown at minute t. */
  #faster(k: number, i: number, need: Need, t: Minute, w: number): void {
    const minutes = t - this.#runFrom[k] - this.#runSetUp[k];
    if (minutes > 0) {
      this.#left[i] = Math.max(1e-3, this.#left[i] - minutes * this.#runPace[k]);
      this.#runSetUp[k] = 0;
    } else this.#runSetUp[k] = -minutes;
    this.#runFrom[k] = t;
    this.#runPace[k] =
      this.#chooser.paceOf(i, need, this.#runCrew, k * this.#words) * this.#luck.ofTurnout(i, w);
    const end = t + this.#runSetUp[k] + Math.ceil(this.#left[i] / this.#runPace[k] - 1e-6);
    this.#runEnd[k] = this.#course.model.kind[i] === Kind.Split ? end : Math.min(end, this.#runEnd[k]);
  }

  #assign(i: number, need: number, kind: number, t: Minute, to: Minute, w: number): void {
    const { model } = this.#course;
    const oneGo = kind === Kind.Bout || kind === Kind.Block;
    const isWork = model.minutes[i] < 0;
    let pace = 1;
    if (need >= 0) {
      const target = isWork ? model.efficient[i] : 0;
      if (!this.#seat(i, model.needs[need], oneGo ? this.#onlyStaying() : this.#free, t, to, w, target)) {
        this.#hold(i, need);
        return;
      }
      if (isWork) pace = this.#chooser.pace;
    }
    if (oneGo) {
      // Judged by what the plan expects; how long it really takes shows only while it is done.
      const expected = Math.ceil(this.#expected[i] / pace);
      if (t + expected > to && !(isWork && this.#seatMore(i, need, t, to, w))) {
        // What no turnout is long enough for is begun as early in one as can be.
        if (t > model.calendar.start[w] || expected <= model.calendar.longest) {
          this.#note(i, Held.Calendar, -1);
          return;
        }
      }
      if (isWork) pace = this.#chooser.pace;
    }
    const wait = this.#stoppedAt[i] >= 0 && this.#stoppedAt[i] !== t ? model.setUp[i] : 0;
    if (!oneGo && to - t < LEAST_STRETCH && this.#left[i] > (to - t - wait) * pace) {
      // Nobody begins what the turnout's last minutes are too short for.
      if (model.calendar.end[w] - model.calendar.start[w] >= LONG_TURNOUT) return;
    }
    this.#setReady(i, false);
    const k = this.#running++;
    const real = isWork ? pace * this.#luck.ofTurnout(i, w) : this.#luck.ofTurnout(i, w);
    this.#runTask[k] = i;
    this.#runFrom[k] = t;
    this.#runPace[k] = real;
    this.#runSetUp[k] = wait;
    const end = t + wait + Math.ceil(this.#left[i] / real - 1e-6);
    this.#runEnd[k] = oneGo && end > to ? to : end;
    const words = this.#words;
    for (let q = 0; q < words; q++) {
      const crew = need >= 0 ? this.#chooser.crew[q] : 0;
      this.#runCrew[k * words + q] = crew;
      this.#free[q] &= ~crew;
    }
    this.#holdTools(i, 1);
    this.#begin(i, t);
  }

  /** More hands than are efficient, where work in one go would not fit else. */
  #seatMore(i: number, need: number, t: Minute, to: Minute, w: number): boolean {
    const { model } = this.#course;
    if (model.most[i] <= model.efficient[i]) return false;
    if (!this.#seat(i, model.needs[need], this.#onlyStaying(), t, to, w, model.most[i])) return false;
    return t + Math.ceil(this.#expected[i] / this.#chooser.pace) <= to;
  }

  #onlyStaying(): Int32Array {
    for (let k = 0; k < this.#words; k++) this.#pool[k] = this.#free[k] & this.#staying[k];
    return this.#pool;
  }

  #seat(
    i: number,
    need: Need,
    people: Int32Array,
    from: Minute,
    to: Minute,
    w: number,
    target: number,
  ): boolean {
    const passing = this.#course.passing[need.gate];
    if (passing === null) return this.#chooser.choose(i, need, people, 0, target, from, to, null, null, null);
    const words = this.#words;
    for (let k = 0; k < words; k++) this.#pool[k] = people[k] & passing[w * words + k];
    return this.#chooser.choose(i, need, this.#pool, 0, target, from, to, null, null, null);
  }

  #mayOpen(i: number): boolean {
    const { atMost, opens, line } = this.#course.openings;
    const row = opens[i];
    for (let k = 0; k < row.length; k += 2) {
      const l = row[k];
      if (this.#openNow[l] + row[k + 1] > atMost[l]) return false;
      if (line[l][this.#lineAt[l]] !== i) return false;
    }
    return true;
  }

  #begin(i: number, t: Minute): void {
    if (this.start[i] !== NEVER) return;
    this.start[i] = t;
    const { opens } = this.#course.openings;
    for (let k = 0; k < opens[i].length; k += 2) {
      this.#openNow[opens[i][k]] += opens[i][k + 1];
      this.#lineAt[opens[i][k]]++;
    }
    // Held by people or tools: it goes on from whoever had them last.
    if (this.heldBy[i] >= Held.Skill) {
      const need = this.#course.model.need[i];
      const before = this.#lastDone >= 0 ? this.#lastDone : need >= 0 ? this.#lastUser[need] : -1;
      if (before >= 0) this.driver[i] = before;
    }
    const out = this.#course.fromStart;
    if (out.at[i] < out.at[i + 1]) this.#tell(out, i, t);
  }

  #finish(k: number, t: Minute, w: number): void {
    const i = this.#runTask[k];
    this.#put(k, t);
    this.#left[i] = 0;
    this.#shown(i, t, w);
  }

  /** Takes a crew off a task that is not done. */
  #stop(k: number, t: Minute): void {
    const i = this.#runTask[k];
    const minutes = t - this.#runFrom[k] - this.#runSetUp[k];
    if (minutes > 0) this.#left[i] = Math.max(1e-3, this.#left[i] - minutes * this.#runPace[k]);
    this.#stoppedAt[i] = t;
    this.#put(k, t);
    this.#setReady(i, true);
  }

  #put(k: number, t: Minute): void {
    const words = this.#words;
    const i = this.#runTask[k];
    const { crowd } = this.#course.model;
    for (let q = 0; q < words; q++) {
      const crew = this.#runCrew[k * words + q];
      this.#free[q] |= crew & this.#here[q];
      if (this.#book !== null) this.#enter(this.#book, k, q, t);
      if (crowd.anyCapped) {
        for (let pool = crew & crowd.capped[q]; pool !== 0; pool &= pool - 1) {
          this.#weekUsed[(q << 5) + 31 - Math.clz32(pool & -pool)] += t - this.#runFrom[k];
        }
      }
    }
    this.#holdTools(i, -1);
    const last = --this.#running;
    if (k === last) return;
    this.#runTask[k] = this.#runTask[last];
    this.#runFrom[k] = this.#runFrom[last];
    this.#runEnd[k] = this.#runEnd[last];
    this.#runPace[k] = this.#runPace[last];
    this.#runSetUp[k] = this.#runSetUp[last];
    for (let q = 0; q < words; q++) this.#runCrew[k * words + q] = this.#runCrew[last * words + q];
  }

  #enter(book: Float64Array, k: number, q: number, t: Minute): void {
    const { n } = this.#course.model;
    for (let pool = this.#runCrew[k * this.#words + q]; pool !== 0; pool &= pool - 1) {
      book[((q << 5) + 31 - Math.clz32(pool & -pool)) * n + this.#runTask[k]] += t - this.#runFrom[k];
    }
  }

  /** The work is done once; the say-so may send it back. */
  #shown(i: number, t: Minute, w: number): void {
    const need = this.#course.model.need[i];
    if (need >= 0) this.#lastUser[need] = i;
    this.#lastDone = i;
    if (this.#course.model.kind[i] === Kind.Elapsed) this.#elapsed(i);
    if (this.#again[i] > 0 && w >= 0) {
      this.#left[i] = this.#again[i];
      this.#expected[i] = this.#again[i];
      this.#again[i] = 0;
      this.#stoppedAt[i] = t;
      this.#setReady(i, true);
      return;
    }
    this.#complete(i, t);
  }

  #elapsed(i: number): void {
    this.#holdTools(i, -1);
    this.#again[i] = 0;
  }

  #complete(i: number, t: Minute): void {
    this.#setReady(i, false);
    this.#state[i] = State.Ending;
    if (t > this.#endFrom[i]) this.#endFrom[i] = t;
    if (this.#endWaits[i] > 0) return;
    if (this.#endFrom[i] > t) this.#events.push(this.#endFrom[i], i, WhatFor.End);
    else this.#done(i, t);
  }

  #done(i: number, t: Minute): void {
    this.#state[i] = State.Done;
    this.end[i] = t;
    this.#undone--;
    if (t >= this.ready) {
      this.ready = t;
      this.last = i;
    }
    const { closes } = this.#course.openings;
    for (let k = 0; k < closes[i].length; k += 2) this.#openNow[closes[i][k]] -= closes[i][k + 1];
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
        if (--this.#endWaits[j] === 0 && this.#state[j] === State.Ending) this.#complete(j, t);
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
    if (this.freeFrom[i] > t) {
      this.#events.push(this.freeFrom[i], i, WhatFor.Release);
      return;
    }
    this.#takeUp(i, t);
  }

  #takeUp(i: number, t: Minute): void {
    const { model } = this.#course;
    switch (model.kind[i]) {
      case Kind.Mark:
        this.#begin(i, t);
        this.#complete(i, t);
        return;
      case Kind.Elapsed:
        this.#left[i] += this.#luck.late[i];
        if (model.toolAt[i] < model.toolAt[i + 1]) break;
        this.#begin(i, t);
        this.#events.push(t + Math.max(0, Math.round(this.#left[i])), i, WhatFor.Shown);
        return;
    }
    this.#setReady(i, true);
  }

  #setReady(i: number, ready: boolean): void {
    const place = this.#course.placeOf[i];
    const { need, kind } = this.#course.model;
    // What takes nobody away from other work stands apart: it is asked whether or not somebody is free.
    const bits = need[i] < 0 || kind[i] === Kind.SaySo ? this.#apartBits : this.#readyBits;
    if (ready) {
      bits[place >> 5] |= 1 << (place & 31);
      this.#woken++;
    } else bits[place >> 5] &= ~(1 << (place & 31));
  }

  #holdTools(i: number, sign: number): void {
    const { toolAt, toolPairs } = this.#course.model;
    for (let k = toolAt[i]; k < toolAt[i + 1]; k += 2)
      this.#toolsHeld[toolPairs[k]] += sign * toolPairs[k + 1];
  }

  /** Notes the scarcest seat that nobody can take, or that hands are too few. */
  #hold(i: number, need: number): void {
    if (this.start[i] !== NEVER) return;
    const { seats } = this.#course.model.needs[need];
    this.#note(i, seats.length > 0 ? Held.Skill : Held.Crew, seats.length > 0 ? seats[0].seat : -1);
  }

  #note(i: number, why: number, index: number): void {
    this.heldBy[i] = why;
    this.heldIndex[i] = index;
  }
}

/** Why a task had to wait after its links let it go. */
export const Held = { Nothing: 0, Calendar: 1, Opening: 2, Skill: 3, Crew: 4, Tool: 5 } as const;

const State = { Waiting: 0, Released: 1, Ending: 2, Done: 3 } as const;
const NEVER_BEGUN = -0x3fffffff;
/** As the plans have it: a shorter stretch at the end of a turnout is not begun. */
const LEAST_STRETCH = 15;
const LONG_TURNOUT = 120;
