import type { Model } from '../model/model.js';
import type { Need } from '../model/people.js';
import type { Minute } from '../problem.js';
import type { Floor } from './floor.js';
import { Segments } from './segments.js';

/** A stretch shorter than this at the end of a turnout is not begun, where the turnout is long enough to matter. */
const LEAST_STRETCH = 15;
const LONG_TURNOUT = 120;

/**
 * What may stop and go on does so only when a turnout ends or somebody must leave. Inside a turnout it is a chain of
 * touching segments, the crew changing from one to the next:
 *
 *     |  a b c   |  a c  |  a c d        |  end of the turnout
 *     9:00       b leaves   d comes
 */
export class Chain {
  /** The chain found last. */
  readonly segments: Segments;
  /** What it leaves of the work. */
  left = 0;

  readonly #floor: Floor;
  readonly #model: Model;
  readonly #words: number;
  readonly #best: Int32Array;
  /** People whom a cap or a clearance that lapses may send home before their stay ends. */
  readonly #mayGo: Int32Array;

  constructor(floor: Floor) {
    const { model } = floor;
    const { words, gates, capped } = model.crowd;
    this.#floor = floor;
    this.#model = model;
    this.#words = words;
    this.segments = new Segments(words);
    this.#best = new Int32Array(words);
    this.#mayGo = gates.some((gate) => gate.lapses) ? new Int32Array(words).fill(-1) : capped.slice();
  }

  /**
   * The earliest chain of touching segments inside turnout w that ends with the work, with the turnout or where
   * somebody must leave. Leaves it in `segments` and what it leaves of the work in `left`.
   * @param atEnd the work must not be done before this minute
   * @param leaveSome the work must not be done in this turnout: it is firmly posted at a later one
   */
  find(
    i: number,
    need: Need,
    w: number,
    from: Minute,
    amount: number,
    setUp: number,
    atEnd: Minute,
    leaveSome: boolean,
  ): boolean {
    const { calendar } = this.#model;
    const begin = calendar.start[w];
    const end = calendar.end[w];
    let s = from > begin ? from : begin;
    for (;;) {
      s = this.#floor.firstCrew(i, need, w, s);
      if (s < end) s = this.#floor.toolsFrom(i, s);
      if (s >= end) return false;
      // What came to nothing at once would do so the second time as well.
      const found =
        this.#tryChain(i, need, w, s, amount, setUp, false) ||
        (this.segments.count > 0 && this.#tryChain(i, need, w, s, amount, setUp, true));
      if (found) {
        const { segments: chain } = this;
        const last = chain.end[chain.count - 1];
        if (this.left > 0) {
          if (end - begin < LONG_TURNOUT || last - s >= LEAST_STRETCH || last < end) return true;
          return false;
        }
        if (leaveSome) s += Math.max(1, end - last + 1);
        else if (last < atEnd) s += atEnd - last;
        else return true;
      } else {
        s = this.#floor.sliceEnd(w, this.#floor.free.slice(w, s));
      }
      if (s >= end) return false;
    }
  }

  /** @param steady true: each segment as long as it can be; false: the one that gets most done */
  #tryChain(
    i: number,
    need: Need,
    w: number,
    s: Minute,
    amount: number,
    setUp: number,
    steady: boolean,
  ): boolean {
    const { segments: chain } = this;
    chain.count = 0;
    const found = this.#follow(i, need, w, s, amount, setUp, steady);
    // The chain's minutes counted against the caps only while it was tried.
    for (let c = 0; c < chain.count; c++) {
      this.#floor.caps.book(w, chain.start[c], chain.end[c], chain.crew, c * this.#words, -1);
    }
    return found;
  }

  #follow(
    i: number,
    need: Need,
    w: number,
    s: Minute,
    amount: number,
    setUp: number,
    steady: boolean,
  ): boolean {
    const { segments: chain } = this;
    const floor = this.#floor;
    const { chooser } = floor;
    const end = this.#model.calendar.end[w];
    let left = amount;
    let lost = setUp;
    for (let now = s; ;) {
      const to = floor.toolsShort(i, now, end);
      let k = floor.free.slice(w, now);
      floor.begin(need, w, k, now);
      let until: Minute = -1;
      let best = 0;
      let done = false;
      if (to > now) {
        for (let u = floor.sliceEnd(w, k); ; u = floor.sliceEnd(w, k)) {
          if (!chooser.mayDo(need, floor.since, 0)) break;
          if (u > to) u = to;
          u = floor.firstToGo(now, u);
          if (u > now) {
            if (!floor.choose(i, need, now, u)) break;
            const { pace } = chooser;
            const gain = (u - now - lost) * pace;
            if (gain >= left - 1e-9) {
              until = now + lost + Math.ceil(left / pace - 1e-9);
              this.#best.set(chooser.crew);
              done = true;
              break;
            }
            if (gain > 0 && (steady || gain >= best)) {
              best = gain;
              until = u;
              this.#best.set(chooser.crew);
            }
          }
          if (u >= to) break;
          floor.sendHome(u);
          if (u === floor.sliceEnd(w, k)) floor.goOn(w, ++k);
        }
      }
      if (until < 0) {
        this.left = left;
        return chain.count > 0 && this.#mustStop(i, w, now);
      }
      chain.add(i, w, now, until, this.#best, 0);
      floor.caps.book(w, now, until, this.#best, 0, 1);
      if (done) {
        this.left = 0;
        return true;
      }
      left -= best;
      lost = 0;
      now = until;
      if (now >= end) {
        this.left = left;
        return true;
      }
    }
  }

  /** Somebody of the chain's last crew has to go at minute t, or a tool's capacity changes. */
  #mustStop(i: number, w: number, t: Minute): boolean {
    const { presence, crowd, toolAt, toolPairs, tools } = this.#model;
    for (let q = toolAt[i]; q < toolAt[i + 1]; q += 2) if (tools[toolPairs[q]].at.includes(t)) return true;
    const { segments: chain } = this;
    const crew = (chain.count - 1) * this.#words;
    for (let k = presence.first[w] + 1; k < presence.first[w + 1]; k++) {
      if (presence.from[k] !== t) continue;
      for (let q = 0; q < this.#words; q++) {
        if ((chain.crew[crew + q] & ~presence.here[k * this.#words + q]) !== 0) return true;
      }
    }
    for (let q = 0; q < this.#words; q++) {
      for (let pool = this.#mayGo[q] & chain.crew[crew + q]; pool !== 0;) {
        const bit = pool & -pool;
        pool ^= bit;
        const r = (q << 5) + 31 - Math.clz32(bit);
        if (crowd.gates.some((gate) => gate.lapses && gate.till[r] === t)) return true;
        const capped = (crowd.capped[q] & bit) !== 0;
        if (capped && this.#floor.caps.until(w, r, t) === t && !this.#worksAfter(r, w, t)) return true;
      }
    }
    return false;
  }

  /** Whether person r is already planned after minute t in the turnout or the week. */
  #worksAfter(r: number, w: number, t: Minute): boolean {
    const { count, end, turnout, crew } = this.#floor.segments;
    for (let k = 0; k < count; k++) {
      if (turnout[k] < w || end[k] <= t) continue;
      if ((crew[k * this.#words + (r >> 5)] & (1 << (r & 31))) !== 0) return true;
    }
    return false;
  }
}
