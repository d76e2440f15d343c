import { Kind } from '../model/kind.js';
import type { Model } from '../model/model.js';
import { has, type Need } from '../model/people.js';
import type { Minute } from '../problem.js';

/** No node: a person's row of tasks ends here, or nobody sits there. */
export const NONE = -1;
/** More than one task is in the way. */
export const MANY = -2;

/**
 * A plan of tasks of set length as who does what after what: each person has a row of tasks, and a task starts when
 * its links and all its crew are free. Some tasks may be set aside: they keep their links and their length, but have
 * no crew yet.
 *
 *     Ann    a - c - f          start: longest way to a task through links and rows
 *     Ben    a - d              tail:  longest way from its end to the end of all
 *     aside  e
 *
 * A task that is put into rows at a minute goes behind all that ends by then and before all else, so that no circle
 * can come about; whether all still ends in time is known beforehand (Mastrolilli and Gambardella 2000 for one person
 * a task; from memory).
 */
export class Lineup {
  readonly n: number;
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly tail: Int32Array;
  /** The tasks in an order that keeps links and rows, and each one's place in it. */
  readonly order: Int32Array;
  readonly place: Int32Array;
  /** Hands on each task now, 0 where it is set aside or needs nobody. */
  readonly hands: Int32Array;
  /** Ranks of the hands, `seats` a task. */
  readonly crew: Int32Array;
  /** Most hands of any task. */
  readonly seats: number;
  readonly minutes: Int32Array;
  /** Starts as `freeze` fixed them. */
  readonly fixed: Int32Array;

  readonly #earliest: Int32Array;
  readonly #before: { at: Int32Array; task: Int32Array };
  readonly #after: { at: Int32Array; task: Int32Array };
  /** Node `i * seats + k` is hand k of task i; rows are chained through them. */
  readonly #previous: Int32Array;
  readonly #next: Int32Array;
  readonly #first: Int32Array;
  readonly #taskOf: Int32Array;
  readonly #follows: Int32Array;
  readonly #rowFollows: Int32Array;
  #stamp = 0;
  readonly #moved: Int32Array;

  constructor(model: Model) {
    const { n, needs, crowd, minutes, earliest, inLinks, outLinks } = model;
    this.n = n;
    this.seats = needs.reduce((most, need) => Math.max(most, need.lean), 1);
    this.minutes = minutes.slice();
    this.start = new Int32Array(n);
    this.fixed = new Int32Array(n);
    this.end = new Int32Array(n);
    this.tail = new Int32Array(n);
    this.order = model.order.slice();
    this.place = model.place.slice();
    this.hands = new Int32Array(n);
    this.crew = new Int32Array(n * this.seats);
    this.#earliest = earliest;
    this.#before = inLinks;
    this.#after = outLinks;
    this.#previous = new Int32Array(n * this.seats);
    this.#next = new Int32Array(n * this.seats);
    this.#first = new Int32Array(crowd.count);
    this.#taskOf = Int32Array.from({ length: n * this.seats }, (_, node) => Math.floor(node / this.seats));
    this.#follows = new Int32Array(n);
    this.#rowFollows = new Int32Array(crowd.count);
    this.#moved = new Int32Array(n);
  }

  /** Takes over a plan: starts, and the crew of each task seat by seat; `places` breaks ties. */
  settle(starts: Int32Array, places: Int32Array, crewOf: (task: number) => ArrayLike<number>): void {
    const { n, order, place, seats, crew } = this;
    order.set(Array.from(order).sort((a, b) => starts[a] - starts[b] || places[a] - places[b]));
    this.#first.fill(NONE);
    const last = new Int32Array(this.#first.length).fill(NONE);
    for (let k = 0; k < n; k++) {
      const i = order[k];
      place[i] = k;
      const hands = crewOf(i);
      for (let h = 0; h < hands.length; h++) {
        const r = hands[h];
        const node = i * seats + h;
        crew[node] = r;
        this.#previous[node] = last[r];
        this.#next[node] = NONE;
        if (last[r] === NONE) this.#first[r] = node;
        else this.#next[last[r]] = node;
        last[r] = node;
      }
      this.hands[i] = hands.length;
    }
    this.#forward(0);
    this.#backward(n - 1);
  }

  /** When the last task ends. */
  get ready(): Minute {
    let ready = 0;
    for (let i = 0; i < this.n; i++) if (this.end[i] > ready) ready = this.end[i];
    return ready;
  }

  /** Takes a task out of its rows. */
  setAside(i: number): void {
    const { seats } = this;
    for (let node = i * seats, end = node + this.hands[i]; node < end; node++) this.leave(node);
    this.hands[i] = 0;
    this.#forward(this.place[i]);
    this.#backward(this.place[i]);
  }

  /**
   * Marks what follows task i through links and rows, for `gaps` and `putIn`; only what may end by minute `by` matters.
   */
  lookBehind(i: number, by: Minute): void {
    const { n, order, end, crew, seats, hands } = this;
    const stamp = ++this.#stamp;
    const { at, task } = this.#after;
    let any = false;
    for (let q = at[i]; q < at[i + 1]; q++) if (end[task[q]] <= by) any = true;
    if (!any) return;
    const follows = this.#follows;
    const row = this.#rowFollows;
    const before = this.#before;
    follows[i] = stamp;
    for (let k = this.place[i] + 1; k < n; k++) {
      const j = order[k];
      let marked = false;
      for (let q = before.at[j]; q < before.at[j + 1] && !marked; q++)
        marked = follows[before.task[q]] === stamp;
      const last = j * seats + hands[j];
      for (let node = j * seats; node < last && !marked; node++) marked = row[crew[node]] === stamp;
      if (!marked) continue;
      follows[j] = stamp;
      for (let node = j * seats; node < last; node++) row[crew[node]] = stamp;
    }
  }

  /**
   * The spans of starts at which person r has room for task i, so that all still ends by the deadline: pairs from, to
   * (both included) into `into` from `at` on; returns where they end. `lookBehind` comes first.
   */
  gaps(
    i: number,
    r: number,
    from: Minute,
    to: Minute,
    deadline: Minute,
    into: Int32Array,
    at: number,
  ): number {
    const { end, tail, minutes } = this;
    const length = minutes[i];
    const stamp = this.#stamp;
    let low = from;
    for (let node = this.#first[r]; node !== NONE; node = this.#next[node]) {
      const j = this.#taskOf[node];
      const follows = this.#follows[j] === stamp;
      if (!follows && end[j] <= low) continue;
      let high = deadline - tail[j] - minutes[j] - length;
      if (high > to) high = to;
      if (low <= high) {
        into[at++] = low;
        into[at++] = high;
      }
      if (follows) return at;
      low = end[j];
      if (low > to) return at;
    }
    into[at++] = low;
    into[at++] = to;
    return at;
  }

  /** Tasks of person r that overlap [s, s + length) whatever they do, into `into`; returns how many. */
  inTheWay(r: number, s: Minute, length: number, deadline: Minute, into: Int32Array): number {
    const { end, tail, minutes } = this;
    let count = 0;
    for (let node = this.#first[r]; node !== NONE; node = this.#next[node]) {
      const j = this.#taskOf[node];
      if (end[j] <= s || this.#follows[j] === this.#stamp) continue;
      if (deadline - tail[j] - minutes[j] >= s + length) break;
      into[count++] = j;
    }
    return count;
  }

  /** Puts task i into the rows of `ranks`, behind all that ends by s and does not follow it. */
  putIn(i: number, s: Minute, ranks: Int32Array, count: number): void {
    const { n, order, place, end, crew, seats } = this;
    const stamp = this.#stamp;
    const moved = this.#moved;
    let filled = 0;
    let kept = 0;
    for (let k = 0; k < n; k++) {
      const j = order[k];
      if (j === i) continue;
      if (end[j] <= s && this.#follows[j] !== stamp) {
        order[kept] = j;
        place[j] = kept++;
      } else moved[filled++] = j;
    }
    order[kept] = i;
    place[i] = kept;
    for (let k = 0, at = kept + 1; k < filled; k++, at++) {
      order[at] = moved[k];
      place[moved[k]] = at;
    }
    for (let k = 0; k < count; k++) {
      const r = ranks[k];
      const node = i * seats + k;
      crew[node] = r;
      let before = NONE;
      let after = this.#first[r];
      while (after !== NONE && place[this.#taskOf[after]] < kept) {
        before = after;
        after = this.#next[after];
      }
      this.#link(node, before, after);
    }
    this.hands[i] = count;
    this.#forward(kept);
    this.#backward(kept);
  }

  /**
   * Fixes a start for every task, so that task i has [s, s + its length): what comes before at its earliest, what can
   * wait until after as late as it may be. Until `thaw`, hands can change seats wherever their fixed times allow.
   */
  freeze(i: number, s: Minute, deadline: Minute): void {
    const { n, start, end, tail, minutes, fixed } = this;
    const until = s + minutes[i];
    for (let j = 0; j < n; j++) {
      const latest = deadline - tail[j] - minutes[j];
      const waits = (end[j] > s || this.#follows[j] === this.#stamp) && latest >= until;
      fixed[j] = waits ? latest : start[j];
    }
    fixed[i] = s;
  }

  /** The one task of person r that overlaps task j as fixed, as the node that r has there; NONE, or MANY. */
  overlap(r: number, j: number): number {
    const { fixed, minutes } = this;
    const from = fixed[j];
    const to = from + minutes[j];
    let found = NONE;
    for (let node = this.#first[r]; node !== NONE; node = this.#next[node]) {
      const other = this.#taskOf[node];
      if (fixed[other] >= to) break;
      if (fixed[other] + minutes[other] <= from) continue;
      if (found !== NONE) return MANY;
      found = node;
    }
    return found;
  }

  taskOf(node: number): number {
    return this.#taskOf[node];
  }

  /** Person r takes the seat of a node, whose last holder `leave` has taken out; for tasks as fixed. */
  sit(node: number, r: number): void {
    const { fixed } = this;
    const at = fixed[this.#taskOf[node]];
    let before = NONE;
    let after = this.#first[r];
    while (after !== NONE && fixed[this.#taskOf[after]] < at) {
      before = after;
      after = this.#next[after];
    }
    this.crew[node] = r;
    this.#link(node, before, after);
  }

  leave(node: number): void {
    const before = this.#previous[node];
    const after = this.#next[node];
    if (before === NONE) this.#first[this.crew[node]] = after;
    else this.#next[before] = after;
    if (after !== NONE) this.#previous[after] = before;
  }

  #link(node: number, before: number, after: number): void {
    this.#previous[node] = before;
    this.#next[node] = after;
    if (before === NONE) this.#first[this.crew[node]] = node;
    else this.#next[before] = node;
    if (after !== NONE) this.#previous[after] = node;
  }

  /** Goes on from the fixed times, with everybody where they sit now. */
  thaw(): void {
    const { n, order, place, fixed } = this;
    for (let k = 1; k < n; k++) {
      const i = order[k];
      let at = k;
      for (; at > 0 && fixed[order[at - 1]] > fixed[i]; at--) order[at] = order[at - 1];
      order[at] = i;
    }
    for (let k = 0; k < n; k++) place[order[k]] = k;
    this.#forward(0);
    this.#backward(n - 1);
  }

  /** Starts of the tasks from that place in the order on. */
  #forward(from: number): void {
    const { n, order, start, end, minutes, hands, seats } = this;
    const { at, task } = this.#before;
    const earliest = this.#earliest;
    const previous = this.#previous;
    const taskOf = this.#taskOf;
    for (let k = from; k < n; k++) {
      const i = order[k];
      let t = earliest[i];
      for (let q = at[i], last = at[i + 1]; q < last; q++) {
        const e = end[task[q]];
        if (e > t) t = e;
      }
      for (let node = i * seats, last = node + hands[i]; node < last; node++) {
        const p = previous[node];
        if (p === NONE) continue;
        const e = end[taskOf[p]];
        if (e > t) t = e;
      }
      start[i] = t;
      end[i] = t + minutes[i];
    }
  }

  /** Tails of the tasks from that place in the order down. */
  #backward(from: number): void {
    const { order, tail, minutes, hands, seats } = this;
    const { at, task } = this.#after;
    const next = this.#next;
    const taskOf = this.#taskOf;
    for (let k = from; k >= 0; k--) {
      const i = order[k];
      let t = 0;
      for (let q = at[i], last = at[i + 1]; q < last; q++) {
        const e = tail[task[q]] + minutes[task[q]];
        if (e > t) t = e;
      }
      for (let node = i * seats, last = node + hands[i]; node < last; node++) {
        const p = next[node];
        if (p === NONE) continue;
        const j = taskOf[p];
        const e = tail[j] + minutes[j];
        if (e > t) t = e;
      }
      tail[i] = t;
    }
  }
}

/** Whether a plan of this problem is nothing but rows of tasks: set lengths in one go, plain links, people all along. */
export function canLineUp(model: Model): boolean {
  const { dense, plain, needs, tools, kind, crowd } = model;
  if (!dense || !plain || needs.length === 0 || crowd.count === 0) return false;
  if (tools.some((_, t) => usesTool(model, t))) return false;
  return needs.every((need) => need.simple) && !kind.includes(Kind.Done);
}

function usesTool({ toolAt, toolPairs, n }: Model, tool: number): boolean {
  for (let q = 0; q < toolAt[n]; q += 2) if (toolPairs[q] === tool && toolPairs[q + 1] > 0) return true;
  return false;
}

/** Ranks of those who can sit on a task at all, by need. */
export function eligibleFor(needs: Need[], count: number): Int32Array[] {
  return needs.map(({ seats, seated, lean, hands }) => {
    const ranks: number[] = [];
    for (let r = 0; r < count; r++) {
      if (seats.some((seat) => has(seat.able, r)) || (lean > seated && has(hands, r))) ranks.push(r);
    }
    return Int32Array.from(ranks);
  });
}
