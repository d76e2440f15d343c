import { EVER, NEVER, WorkCalendar } from './calendar.js';
import { Lengths, type Places } from './lengths.js';
import type { Link, Minute, Problem } from './problem.js';

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

const BEGUN = 1;
const DONE = 2;

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
  readonly #links: Links;
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
    this.#links = new Links(problem, this.#state);
    const sorted = inOrder(n, this.#links);
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
    const { first, into, other, fromFinish, toFinish, lag, working } = this.#links;
    const calendar = this.#calendar;
    let ready = EVER;
    for (let k = 0; k < order.length; k++) {
      const i = order[k];
      let start = this.release[i];
      let finish = EVER;
      let byStart = -1;
      let byFinish = -1;
      for (let a = first[i]; a < first[i + 1]; a++) {
        const link = into[a];
        const t = calendar.lagged(
          fromFinish[link] ? earlyFinish[other[a]] : earlyStart[other[a]],
          lag[link],
          working[link] !== 0,
        );
        if (toFinish[link]) {
          if (t > finish) {
            finish = t;
            byFinish = link;
          }
        } else if (t > start) {
          start = t;
          byStart = link;
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
    const { firstOut, out, after, fromFinish, toFinish, lag, working } = this.#links;
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
      for (let a = firstOut[i]; a < firstOut[i + 1]; a++) {
        const link = out[a];
        const j = after[link];
        const t = calendar.unlagged(
          toFinish[link] ? lateFinish[j] : lateStart[j],
          lag[link],
          working[link] !== 0,
        );
        if (fromFinish[link]) {
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
    const n = this.order.length;
    const { earlyStart, earlyFinish, lateStart, lateFinish } = this;
    const calendar = this.#calendar;
    const totalFloat = new Int32Array(n);
    const freeFloat = new Int32Array(n);
    for (let i = 0; i < n; i++) {
      if (this.#state[i] === DONE) continue;
      totalFloat[i] =
        this.#state[i] === BEGUN
          ? calendar.between(earlyFinish[i], lateFinish[i])
          : calendar.between(earlyStart[i], lateStart[i]);
      freeFloat[i] = Math.min(totalFloat[i], this.#slack(i, deadline ?? ready));
    }
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

  /** Working minutes until the early date of a task that follows, or the deadline. */
  #slack(i: number, deadline: Minute): number {
    const { earlyStart, earlyFinish } = this;
    const { firstOut, out, after, fromFinish, toFinish, lag, working } = this.#links;
    const calendar = this.#calendar;
    let least = calendar.between(earlyFinish[i], deadline);
    for (let a = firstOut[i]; a < firstOut[i + 1]; a++) {
      const link = out[a];
      const j = after[link];
      const t = calendar.unlagged(
        toFinish[link] ? earlyFinish[j] : earlyStart[j],
        lag[link],
        working[link] !== 0,
      );
      const slack = calendar.between(fromFinish[link] ? earlyFinish[i] : earlyStart[i], t);
      if (slack < least) least = slack;
    }
    return least;
  }

  #pathTo(ready: Minute): number[] {
    const { fromFinish, before } = this.#links;
    const path: number[] = [];
    let i = this.earlyFinish.indexOf(ready);
    let atFinish = true;
    while (i >= 0) {
      path.push(i);
      const end: number = atFinish ? this.drivesFinish[i] : -1;
      const link: number = end >= 0 ? end : this.drivesStart[i];
      if (link < 0 || this.#state[i] === DONE) break;
      atFinish = fromFinish[link] !== 0;
      i = before[link];
    }
    return path.reverse();
  }
}

/** Nothing is shut before it is opened: the closer of an element ends no earlier than its opener starts. */
export function openingTies(problem: Problem): Link[] {
  const closer = new Map<number, number>();
  problem.tasks.forEach((task, i) => {
    for (const e of task.closes) closer.set(e, i);
  });
  const ties: Link[] = [];
  problem.tasks.forEach((task, before) => {
    for (const e of task.opens) {
      const after = closer.get(e);
      if (after === undefined || after === before) continue;
      ties.push({ before, after, relation: 'start-to-finish', lag: 0, lagKind: 'elapsed' });
    }
  });
  return ties;
}

/**
 * The links in rows, by the task they end at and by the one they start at; after those of the problem the ties between
 * openers and closers. Links into what has begun are left out.
 */
class Links {
  readonly first: Int32Array;
  readonly into: Int32Array;
  /** Beside `into`: the task at the other end. */
  readonly other: Int32Array;
  readonly firstOut: Int32Array;
  readonly out: Int32Array;
  readonly before: Int32Array;
  readonly after: Int32Array;
  readonly fromFinish: Uint8Array;
  readonly toFinish: Uint8Array;
  readonly lag: Int32Array;
  readonly working: Uint8Array;

  constructor(problem: Problem, state: Uint8Array) {
    const n = problem.tasks.length;
    const links = [...problem.links, ...openingTies(problem)];
    const m = links.length;
    this.before = new Int32Array(m);
    this.after = new Int32Array(m);
    this.fromFinish = new Uint8Array(m);
    this.toFinish = new Uint8Array(m);
    this.lag = new Int32Array(m);
    this.working = new Uint8Array(m);
    this.first = new Int32Array(n + 1);
    this.firstOut = new Int32Array(n + 1);
    const counts = new Uint8Array(m);
    for (let k = 0; k < m; k++) {
      const link = links[k];
      const { relation } = link;
      this.before[k] = link.before;
      this.after[k] = link.after;
      this.fromFinish[k] = relation === 'finish-to-start' || relation === 'finish-to-finish' ? 1 : 0;
      this.toFinish[k] = relation === 'finish-to-finish' || relation === 'start-to-finish' ? 1 : 0;
      this.lag[k] = link.lag;
      this.working[k] = link.lagKind === 'working' ? 1 : 0;
      const of = state[link.after];
      if (of === DONE || (of === BEGUN && !this.toFinish[k])) continue;
      counts[k] = 1;
      this.first[link.after + 1]++;
      this.firstOut[link.before + 1]++;
    }
    for (let i = 0; i < n; i++) {
      this.first[i + 1] += this.first[i];
      this.firstOut[i + 1] += this.firstOut[i];
    }
    this.into = new Int32Array(this.first[n]);
    this.other = new Int32Array(this.first[n]);
    this.out = new Int32Array(this.first[n]);
    const nextIn = this.first.slice(0, n);
    const nextOut = this.firstOut.slice(0, n);
    for (let k = 0; k < m; k++) {
      if (!counts[k]) continue;
      const at = nextIn[this.after[k]]++;
      this.into[at] = k;
      this.other[at] = this.before[k];
      this.out[nextOut[this.before[k]]++] = k;
    }
  }
}

/** Tasks in an order in which every link runs forward (Kahn 1962, from memory), or a circle of them. */
function inOrder(n: number, links: Links): { order: Int32Array; circle: number[] | null } {
  const { first, into, firstOut, out, before, after } = links;
  const order = new Int32Array(n);
  const waits = new Int32Array(n);
  let filled = 0;
  for (let i = 0; i < n; i++) {
    waits[i] = first[i + 1] - first[i];
    if (waits[i] === 0) order[filled++] = i;
  }
  for (let k = 0; k < filled; k++) {
    for (let a = firstOut[order[k]]; a < firstOut[order[k] + 1]; a++) {
      const j = after[out[a]];
      if (--waits[j] === 0) order[filled++] = j;
    }
  }
  if (filled === n) return { order, circle: null };

  // Every task left waits for another one left: walking back must come round.
  const seen = new Map<number, number>();
  const walk: number[] = [];
  let i = waits.findIndex((count) => count > 0);
  while (!seen.has(i)) {
    seen.set(i, walk.length);
    walk.push(i);
    let a = first[i];
    while (waits[before[into[a]]] === 0) a++;
    i = before[into[a]];
  }
  return { order: order.subarray(0, filled), circle: walk.slice(seen.get(i)).reverse() };
}
