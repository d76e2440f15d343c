import type { Model } from '../model/model.js';
import { put } from '../model/people.js';
import type { Minute } from '../problem.js';
import type { Bench } from './bench.js';
import { eligibleFor, Lineup } from './lineup.js';
import type { Random } from './random.js';
import { Reseating } from './reseating.js';
import { Seating } from './seating.js';

/**
 * Search by deadline for plans that are rows of tasks (ejection of what is in the way, with a price that grows for
 * whatever is hard to place: Nagata and Braysy 2009, for vehicles; from memory). The deadline is a minute before the
 * best plan's end. Tasks that keep the plan from making it are set aside; one after the other is put back where it
 * has room. Where none has, it goes where those that must leave for it cost least, and they are set aside instead;
 * then some tasks change place and people at random. When nothing is set aside any more, the plan is better.
 */
export class DeadlineSearch {
  readonly #bench: Bench;
  readonly #model: Model;
  readonly #random: Random;
  readonly #line: Lineup;
  readonly #seating: Seating;
  readonly #reseating: Reseating;
  readonly #eligible: Int32Array[];
  readonly #price: Float64Array;
  readonly #crewed: Int32Array;
  readonly #aside: Int32Array;
  #asideCount = 0;
  #deadline: Minute = 0;

  /** Spans of room found last: from, to, person. */
  readonly #spans: Int32Array;
  readonly #spanOf: Int32Array;
  readonly #starts: Int32Array;
  readonly #free: Int32Array;
  readonly #ways: Int32Array;
  readonly #blocks: Int32Array[];
  readonly #blockCount: Int32Array;
  readonly #inWay: Uint8Array;
  #wayCount = 0;
  /** What the cheapest place found costs others: their prices, with some chance in them, and who must leave. */
  readonly #leaving: { keys: Float64Array; out: Int32Array; count: number };
  /** Minutes that were seen already, by stamp. */
  readonly #seen: Int32Array;
  #stamp = 0;

  constructor(bench: Bench, random: Random) {
    const { model } = bench;
    const { n, needs, need, crowd } = model;
    this.#bench = bench;
    this.#model = model;
    this.#random = random;
    this.#line = new Lineup(model);
    this.#seating = new Seating(needs, crowd);
    this.#reseating = new Reseating(this.#line, this.#seating, need, crowd.count);
    this.#eligible = eligibleFor(needs, crowd.count);
    this.#price = new Float64Array(n).fill(1);
    this.#crewed = Int32Array.from(Array.from(need.keys()).filter((i) => need[i] >= 0));
    this.#aside = new Int32Array(n);
    const most = n * this.#line.seats + n + crowd.count + 2;
    this.#spans = new Int32Array(2 * most);
    this.#spanOf = new Int32Array(most);
    this.#starts = new Int32Array(most);
    this.#free = new Int32Array(crowd.words);
    this.#ways = new Int32Array(n);
    this.#blocks = Array.from({ length: crowd.count }, () => new Int32Array(n));
    this.#blockCount = new Int32Array(crowd.count);
    this.#inWay = new Uint8Array(n);
    this.#leaving = { keys: new Float64Array(n), out: new Int32Array(n), count: 0 };
    this.#seen = new Int32Array(model.horizon + 1);
  }

  /** Betters the best plan until so many passes are spent without a better one, or the bench says stop. */
  run(passes: number): void {
    const bench = this.#bench;
    let last = bench.passes + passes;
    while (!bench.isOver() && bench.best !== null && bench.passes < last) {
      const { start, crew, ready } = bench.best;
      this.#line.settle(start, this.#model.place, (i) => this.#crewIn(i, crew));
      this.#asideCount = 0;
      this.#price.fill(1);
      this.#makeDeadline(ready - 1);
      for (let round = 0; round < ROUNDS && !bench.isOver() && bench.passes < last;) {
        if (this.#asideCount === 0) {
          this.#report();
          round = 0;
          last = bench.passes + passes;
          this.#makeDeadline(bench.best.ready - 1);
          continue;
        }
        round++;
        this.#placeOne();
      }
    }
  }

  #crewIn(i: number, crews: Int32Array): ArrayLike<number> {
    const { need, crowd } = this.#model;
    if (need[i] < 0) return [];
    return this.#seating.seat(need[i], crews.subarray(i * crowd.words, (i + 1) * crowd.words));
  }

  /** Sets tasks aside, each at random out of those on a way that is too long, until all others make the deadline. */
  #makeDeadline(deadline: Minute): void {
    this.#deadline = deadline;
    const line = this.#line;
    const late = this.#ways;
    for (;;) {
      let count = 0;
      for (const i of this.#crewed) {
        if (line.hands[i] > 0 && line.end[i] + line.tail[i] > deadline) late[count++] = i;
      }
      if (count === 0) return;
      this.#setAside(late[this.#random.below(count)]);
    }
  }

  #setAside(i: number): void {
    this.#line.setAside(i);
    this.#bench.spend(1);
    this.#aside[this.#asideCount++] = i;
  }

  #placeOne(): void {
    const random = this.#random;
    const i = this.#aside[--this.#asideCount];
    this.#seating.shuffle(random, NOISE * random.share());
    if (this.#putWhereRoom(i) || (random.share() < CHANGES && this.#putByChanges(i))) return;
    this.#price[i]++;
    this.#force(i);
    for (let k = 0; k < MOVES && !this.#bench.isOver(); k++) this.#move();
  }

  /** Puts a task where people have room for it; false where they have nowhere. */
  #putWhereRoom(i: number): boolean {
    const line = this.#line;
    const model = this.#model;
    const need = model.need[i];
    const from = line.start[i];
    const to = this.#deadline - line.tail[i] - line.minutes[i];
    if (from > to) return false;
    line.lookBehind(i, to);
    const spans = this.#spans;
    const spanOf = this.#spanOf;
    const starts = this.#starts;
    let filled = 0;
    for (const r of this.#eligible[need]) {
      const last = line.gaps(i, r, from, to, this.#deadline, spans, filled);
      for (let k = filled; k < last; k += 2) spanOf[k >> 1] = r;
      filled = last;
    }
    // Some start of a span is among the best starts.
    let count = 0;
    for (let k = 0; k < filled; k += 2) {
      const s = spans[k];
      let at = 0;
      while (at < count && starts[at] !== s) at++;
      if (at === count) starts[count++] = s;
    }
    const free = this.#free;
    while (count > 0) {
      const at = this.#random.below(count);
      const s = starts[at];
      starts[at] = starts[--count];
      free.fill(0);
      for (let k = 0; k < filled; k += 2) if (spans[k] <= s && s <= spans[k + 1]) put(free, spanOf[k >> 1]);
      if (!this.#seating.fill(need, free)) continue;
      line.putIn(i, s, this.#seating.crew, this.#seating.count);
      this.#bench.spend(1);
      return true;
    }
    return false;
  }

  /** Puts a task where people can change seats to make room for it. */
  #putByChanges(i: number): boolean {
    const line = this.#line;
    const starts = this.#starts;
    const from = line.start[i];
    const to = this.#deadline - line.tail[i] - line.minutes[i];
    line.lookBehind(i, to);
    let count = this.#ends(from, to);
    while (count > 0) {
      const at = this.#random.below(count);
      const s = starts[at];
      starts[at] = starts[--count];
      if (!this.#reseating.putIn(i, s, this.#deadline)) continue;
      this.#bench.spend(1);
      return true;
    }
    return false;
  }

  /** Starts worth trying: where something ends, the first and the last. */
  #ends(from: Minute, to: Minute): number {
    const line = this.#line;
    const starts = this.#starts;
    const seen = this.#seen;
    const stamp = ++this.#stamp;
    let count = 0;
    starts[count++] = from;
    seen[from] = stamp;
    if (to > from) starts[count++] = to;
    seen[to] = stamp;
    for (const j of this.#crewed) {
      const s = line.end[j];
      if (line.hands[j] === 0 || s < from || s > to || seen[s] === stamp) continue;
      seen[s] = stamp;
      starts[count++] = s;
    }
    return count;
  }

  /** Puts a task where those in its way cost least, and sets them aside. */
  #force(i: number): void {
    const line = this.#line;
    const random = this.#random;
    const need = this.#model.need[i];
    const eligible = this.#eligible[need];
    const length = line.minutes[i];
    const from = line.start[i];
    const to = this.#deadline - line.tail[i] - length;
    line.lookBehind(i, to);
    const starts = this.#starts;
    const count = this.#ends(from, to);
    const { keys, out } = this.#leaving;
    for (const j of this.#crewed) keys[j] = this.#price[j] + CHANCE * random.share();
    const single = this.#seating.places(need) === 1;
    let best = Infinity;
    let bestStart = -1;
    for (let c = 0; c < count; c++) {
      const cost = single
        ? this.#costOfOne(eligible, starts[c], length, best)
        : this.#costOfCrew(need, eligible, starts[c], length, best);
      if (cost >= best) continue;
      best = cost;
      bestStart = starts[c];
      out.set(this.#ways.subarray(0, (this.#leaving.count = this.#wayCount)));
    }
    if (bestStart < 0) throw new Error('a task has no place before the deadline');
    const inWay = this.#inWay;
    for (let k = 0; k < this.#leaving.count; k++) inWay[out[k]] = 1;
    for (const r of eligible)
      this.#blockCount[r] = line.inTheWay(r, bestStart, length, this.#deadline, this.#blocks[r]);
    this.#freeNow(eligible);
    for (let k = 0; k < this.#leaving.count; k++) inWay[out[k]] = 0;
    if (!this.#seating.fill(need, this.#free)) throw new Error('a crew that was there is gone');
    for (let k = 0; k < this.#leaving.count; k++) this.#setAside(out[k]);
    line.lookBehind(i, to);
    line.putIn(i, bestStart, this.#seating.crew, this.#seating.count);
    this.#bench.spend(1);
  }

  /** What must leave, into `#ways`, for one person to be free for so long from s on, and its cost; `most` or more is too much. */
  #costOfOne(eligible: Int32Array, s: Minute, length: number, most: number): number {
    const { keys } = this.#leaving;
    let best = most;
    for (const r of eligible) {
      const blocks = this.#blocks[r];
      const found = this.#line.inTheWay(r, s, length, this.#deadline, blocks);
      let cost = 0;
      for (let k = 0; k < found && cost < best; k++) cost += keys[blocks[k]];
      if (cost >= best) continue;
      best = cost;
      this.#wayCount = found;
      for (let k = 0; k < found; k++) this.#ways[k] = blocks[k];
    }
    return best;
  }

  /** The same for a crew: with all in the way out there is room, and those that cost most come back first. */
  #costOfCrew(need: number, eligible: Int32Array, s: Minute, length: number, most: number): number {
    const { keys } = this.#leaving;
    const inWay = this.#inWay;
    const ways = this.#ways;
    let count = 0;
    for (const r of eligible) {
      const blocks = this.#blocks[r];
      const found = (this.#blockCount[r] = this.#line.inTheWay(r, s, length, this.#deadline, blocks));
      for (let k = 0; k < found; k++) {
        const j = blocks[k];
        if (inWay[j] !== 0) continue;
        inWay[j] = 1;
        let at = count++;
        for (; at > 0 && keys[ways[at - 1]] < keys[j]; at--) ways[at] = ways[at - 1];
        ways[at] = j;
      }
    }
    let cost = 0;
    let left = 0;
    for (let k = 0; k < count && cost < most; k++) {
      const j = ways[k];
      inWay[j] = 0;
      if (this.#fits(need, eligible)) continue;
      inWay[j] = 1;
      cost += keys[j];
      // Those that stay out stand at the front; the ones that came back are not needed any more.
      ways[k] = ways[left];
      ways[left++] = j;
    }
    for (let k = 0; k < count; k++) inWay[ways[k]] = 0;
    this.#wayCount = left;
    return cost;
  }

  #freeNow(eligible: Int32Array): void {
    const free = this.#free.fill(0);
    for (const r of eligible) {
      let blocked = false;
      for (let k = 0; k < this.#blockCount[r] && !blocked; k++)
        blocked = this.#inWay[this.#blocks[r][k]] === 0;
      if (!blocked) put(free, r);
    }
  }

  #fits(need: number, eligible: Int32Array): boolean {
    this.#freeNow(eligible);
    return this.#seating.fill(need, this.#free);
  }

  /** Some task in a row goes to another place that has room, or back to its own. */
  #move(): void {
    const line = this.#line;
    const i = this.#crewed[this.#random.below(this.#crewed.length)];
    if (line.hands[i] === 0) return;
    this.#seating.shuffle(this.#random, NOISE * this.#random.share());
    line.setAside(i);
    this.#bench.spend(1);
    if (!this.#putWhereRoom(i)) throw new Error('a task found its own place taken');
  }

  #report(): void {
    const { n, crowd } = this.#model;
    const line = this.#line;
    const crew = new Int32Array(n * crowd.words);
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < line.hands[i]; k++) {
        const r = line.crew[i * line.seats + k];
        crew[i * crowd.words + (r >> 5)] |= 1 << (r & 31);
      }
    }
    this.#bench.take(line.order, new Uint8Array(n), line.start, crew, line.ready);
  }
}

/** Tasks placed by force or not without a better plan before the search begins anew from the best one. */
const ROUNDS = 20_000;
/** Share of tasks without room for which people are asked to change seats; slow, but finds what nothing else does. */
const CHANGES = 0.3;
/** Tasks that change place after one was forced in. */
const MOVES = 2;
/** Most ranks by which the order of who is taken first is shifted. */
const NOISE = 12;
/** How far chance moves the price of a task. */
const CHANCE = 0.5;
