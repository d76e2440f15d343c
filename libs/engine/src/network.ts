import { EVER, NEVER, WorkCalendar } from './calendar.js';
import { Lengths, type Places } from './lengths.js';
import { BEGUN, DONE, FROM_FINISH, inOrder, kindOf, LinkRows, TO_FINISH, WORKING } from './link-rows.js';
import type { Minute, Problem } from './problem.js';

/**
 * The network pass: when each task can lie if there were people enough, on the working calendar.
 *
 * Seeks the least early and the greatest late dates that keep every link (critical path method, Kelley and Walker
 * 1959, with the four relations and lags of the precedence method, Fondahl 1961; from memory). One sweep in link
 * order each way over links laid end to end (compressed rows), so the cost is tasks + links, each with a calendar
 * look-up.
 *
 *     tasks in order   t0   t1      t2 ...
 *     into[]           |    |....|  |..|          links that end at the task
 */
export interface Network {
  kind: 'network';
  earlyStart: Int32Array;
  /** NEVER (from the calendar) and later where the turnouts run out before the task can end. */
  earlyFinish: Int32Array;
  lateStart: Int32Array;
  lateFinish: Int32Array;
  /** Working minutes from early to late start (finish, once begun): how far the task can slip before `ready` moves. */
  totalFloat: Int32Array;
  /** Working minutes that the task can slip before the early dates of any that follow move. */
  freeFloat: Int32Array;
  /** Per task the link that sets its early start, or -1: now, its own "not before", an opening, or the turnouts do. */
  drivesStart: Int32Array;
  /** Per task the link that sets its early finish, or -1 where its start and length do, or an opening. */
  drivesFinish: Int32Array;
  ready: Minute;
  /** The tasks from the first cause to the one that ends last. */
  criticalPath: number[];
}

/** Tasks that wait for each other, each for the one before it and the first for the last. */
export interface Circle {
  kind: 'circle';
  tasks: number[];
}

/** @param deadline late dates are counted back from here; the early ready minute unless given. */
export function network(problem: Problem, deadline?: Minute): Network | Circle {
  const pass = new NetworkPass(problem, new Lengths(problem, new WorkCalendar(problem.turnouts)));
  if (pass.circle) return { kind: 'circle', tasks: pass.circle };
  return pass.run(deadline);
}

/** Built once for a problem; to be run as often as lengths, `release` or `due` change. */
export class NetworkPass {
  readonly circle: number[] | null;
  readonly earlyStart: Int32Array;
  readonly earlyFinish: Int32Array;
  readonly lateStart: Int32Array;
  readonly lateFinish: Int32Array;
  readonly drivesStart: Int32Array;
  readonly drivesFinish: Int32Array;
  /** Earliest start by itself: now, "not before", or the true start of what has begun. */
  readonly release: Int32Array;
  /** Latest end by itself; NEVER unless somebody writes one. */
  readonly due: Int32Array;
  /** Tasks so that every link runs forward. */
  readonly order: Int32Array;
  readonly #calendar: WorkCalendar;
  readonly #links: LinkRows;
  readonly #state: Uint8Array;
  readonly #doneAt: Int32Array;
  readonly #now: Minute;
  /** Links that the problem gives; those after them are ties of openings. */
  readonly #given: number;

  constructor(
    problem: Problem,
    readonly places: Places,
  ) {
    const n = problem.tasks.length;
    const dates = () => new Int32Array(n);
    this.#calendar = places.calendar;
    this.#now = problem.now;
    this.#given = problem.links.length;
    this.#state = new Uint8Array(n);
    this.release = dates();
    this.due = dates().fill(NEVER);
    this.#doneAt = dates();
    problem.tasks.forEach(({ progress, notBefore }, i) => {
      if (progress.kind === 'waiting') {
        this.release[i] = notBefore === null ? problem.now : Math.max(problem.now, notBefore);
        return;
      }
      this.#state[i] = progress.kind === 'done' ? DONE : BEGUN;
      this.release[i] = progress.startedAt;
      if (progress.kind === 'done') this.#doneAt[i] = progress.endedAt;
    });
    this.#links = new LinkRows(problem, this.#state);
    const sorted = inOrder(this.#links);
    this.circle = sorted.circle;
    this.order = sorted.order;
    this.earlyStart = dates();
    this.earlyFinish = dates();
    this.lateStart = dates();
    this.lateFinish = dates();
    this.drivesStart = dates();
    this.drivesFinish = dates();
  }

  /** Fills the early dates and the driving links; the answer is the ready minute. */
  forward(): Minute {
    const { order, places, earlyStart, earlyFinish, drivesStart, drivesFinish } = this;
    const { number } = this.#links;
    const { first, other, kind, lag } = this.#links.into;
    const calendar = this.#calendar;
    let ready = EVER;
    for (let k = 0; k < order.length; k++) {
      const i = order[k];
      let start = this.release[i];
      let finish = EVER;
      let byStart = -1;
      let byFinish = -1;
      for (let a = first[i]; a < first[i + 1]; a++) {
        const of = kind[a];
        const t = calendar.lagged(
          of & FROM_FINISH ? earlyFinish[other[a]] : earlyStart[other[a]],
          lag[a],
          (of & WORKING) !== 0,
        );
        if (of & TO_FINISH) {
          if (t > finish) {
            finish = t;
            byFinish = number[a];
          }
        } else if (t > start) {
          start = t;
          byStart = number[a];
        }
      }
      const state = this.#state[i];
      if (state === DONE) {
        earlyStart[i] = start;
        earlyFinish[i] = this.#doneAt[i];
      } else {
        const begin = state === BEGUN ? this.#now : start;
        places.early(i, begin, EVER);
        const unpushed = places.start;
        if (finish <= places.end) byFinish = -1;
        else places.early(i, begin, finish);
        if (places.start > unpushed && byFinish >= 0) byStart = byFinish;
        earlyStart[i] = state === BEGUN ? start : places.start;
        earlyFinish[i] = places.end;
      }
      drivesStart[i] = byStart;
      drivesFinish[i] = byFinish;
      if (earlyFinish[i] > ready) ready = earlyFinish[i];
    }
    return ready;
  }

  /** Fills the late dates, counted back from the deadline and each task's `due`. */
  backward(deadline: Minute): void {
    const { order, places, lateStart, lateFinish, due } = this;
    const { first, other, kind, lag } = this.#links.out;
    const calendar = this.#calendar;
    for (let k = order.length - 1; k >= 0; k--) {
      const i = order[k];
      if (this.#state[i] === DONE) {
        lateStart[i] = this.earlyStart[i];
        lateFinish[i] = this.earlyFinish[i];
        continue;
      }
      let start = NEVER;
      let finish = due[i] < deadline ? due[i] : deadline;
      for (let a = first[i]; a < first[i + 1]; a++) {
        const of = kind[a];
        const t = calendar.unlagged(
          of & TO_FINISH ? lateFinish[other[a]] : lateStart[other[a]],
          lag[a],
          (of & WORKING) !== 0,
        );
        if (of & FROM_FINISH) {
          if (t < finish) finish = t;
        } else if (t < start) start = t;
      }
      // What has begun can't begin later: only its end is still to be bounded.
      places.late(i, this.#state[i] === BEGUN ? NEVER : start, finish);
      lateFinish[i] = places.end;
      lateStart[i] = this.#state[i] === BEGUN ? this.earlyStart[i] : places.start;
    }
  }

  /** Early and late dates, floats and the critical path; late dates from `deadline`, or from the ready minute. */
  run(deadline?: Minute): Network {
    const ready = this.forward();
    this.backward(deadline ?? ready);
    const { earlyStart, earlyFinish, lateStart, lateFinish } = this;
    const { totalFloat, freeFloat } = this.#floats(deadline ?? ready);
    const ofProblem = (link: number) => (link < this.#given ? link : -1);
    return {
      kind: 'network',
      earlyStart: earlyStart.slice(),
      earlyFinish: earlyFinish.slice(),
      lateStart: lateStart.slice(),
      lateFinish: lateFinish.slice(),
      totalFloat,
      freeFloat,
      drivesStart: this.drivesStart.map(ofProblem),
      drivesFinish: this.drivesFinish.map(ofProblem),
      ready,
      criticalPath: this.#pathTo(ready),
    };
  }

  #floats(deadline: Minute): Pick<Network, 'totalFloat' | 'freeFloat'> {
    const { earlyStart, earlyFinish, lateStart, lateFinish } = this;
    const { first, other, kind, lag } = this.#links.out;
    const calendar = this.#calendar;
    const n = earlyStart.length;
    const totalFloat = new Int32Array(n);
    const freeFloat = new Int32Array(n);
    // Each date is asked for once a link, so its working minutes are looked up once a task.
    const startWork = earlyStart.map((t) => calendar.worked(t));
    const finishWork = earlyFinish.map((t) => calendar.worked(t));
    const end = calendar.worked(deadline);
    for (let i = 0; i < n; i++) {
      const state = this.#state[i];
      if (state === DONE) continue;
      const total =
        state === BEGUN
          ? calendar.worked(lateFinish[i]) - finishWork[i]
          : calendar.worked(lateStart[i]) - startWork[i];
      let free = Math.min(total, end - finishWork[i]);
      for (let a = first[i]; a < first[i + 1]; a++) {
        const j = other[a];
        const of = kind[a];
        const early = of & TO_FINISH ? earlyFinish : earlyStart;
        const due =
          lag[a] === 0
            ? (of & TO_FINISH ? finishWork : startWork)[j]
            : calendar.worked(calendar.unlagged(early[j], lag[a], (of & WORKING) !== 0));
        const slack = due - (of & FROM_FINISH ? finishWork : startWork)[i];
        if (slack < free) free = slack;
      }
      totalFloat[i] = total;
      freeFloat[i] = free;
    }
    return { totalFloat, freeFloat };
  }

  #pathTo(ready: Minute): number[] {
    const path: number[] = [];
    let i = this.earlyFinish.indexOf(ready);
    let atFinish = true;
    while (i >= 0) {
      path.push(i);
      const end: number = atFinish ? this.drivesFinish[i] : -1;
      const link: number = end >= 0 ? end : this.drivesStart[i];
      if (link < 0 || this.#state[i] === DONE) break;
      const cause = this.#links.link(link);
      atFinish = (kindOf(cause) & FROM_FINISH) !== 0;
      i = cause.before;
    }
    return path.reverse();
  }
}
