import { NEVER } from '../calendar.js';
import type { Model } from '../model/model.js';
import { bits, type Need } from '../model/people.js';
import type { Minute } from '../problem.js';
import { Caps } from './caps.js';
import { CrewChooser } from './crew.js';
import { Segments } from './segments.js';
import { FreePeople } from './slices.js';
import { ToolTimeline } from './steps.js';

/**
 * The yard during a pass: who and what is taken so far, and, while a place is sought for one task, who has been free
 * without a break since the minute that is tried.
 */
export class Floor {
  readonly model: Model;
  readonly segments: Segments;
  readonly chooser: CrewChooser;
  readonly free: FreePeople;
  readonly caps: Caps;
  /** People free since the minute that `begin` was given. */
  readonly since: Int32Array;
  /** People whom the task's firm postings at this turnout name; set by `aim`. */
  must: Int32Array | null = null;
  /** True while tasks with firm postings are placed: who is posted elsewhere is left alone. */
  reserving = false;

  readonly #words: number;
  readonly #tools: ToolTimeline[];
  readonly #able: (Uint8Array | undefined)[] = [];
  /** By rank, for those with a cap: the minute at which they must go. */
  readonly #goes: Int32Array;
  readonly #spare: Int32Array;
  /** By need and turnout: between these two minutes no crew can be had any more; of the pass in `#lostIn`. */
  readonly #lostFrom: Int32Array;
  readonly #lostTo: Int32Array;
  readonly #lostIn: Int32Array;
  #pass = 1;
  #wish: Int32Array | null = null;
  #leave: Int32Array | null = null;
  #target = 0;

  constructor(model: Model) {
    const { words, count } = model.crowd;
    this.model = model;
    this.#words = words;
    this.segments = new Segments(words);
    this.chooser = new CrewChooser(model);
    this.free = new FreePeople(model);
    this.caps = new Caps(model);
    this.since = new Int32Array(words);
    this.#tools = model.tools.map((steps) => new ToolTimeline(steps));
    this.#goes = new Int32Array(count);
    this.#spare = new Int32Array(words);
    const size = model.needs.length * model.calendar.count;
    this.#lostFrom = new Int32Array(size);
    this.#lostTo = new Int32Array(size);
    this.#lostIn = new Int32Array(size);
  }

  reset(): void {
    this.#pass++;
    this.segments.count = 0;
    this.free.reset();
    this.caps.reset();
    for (const tool of this.#tools) tool.reset();
  }

  /** Turns to task i at turnout w with up to `target` hands: whom postings ask for, and who is asked for elsewhere. */
  aim(i: number, w: number, target: number): void {
    const { wished, calendar } = this.model;
    this.#target = target;
    this.must = this.#wish = this.#leave = null;
    if (wished === null) return;
    const key = i * calendar.count + w;
    this.must = wished.firm.get(key) ?? null;
    this.#wish = wished.soft.get(key) ?? null;
    const asked = wished.asked.get(w);
    if (!asked) return;
    for (let q = 0; q < this.#words; q++) {
      this.#spare[q] = asked[q] & ~(this.must?.[q] ?? 0) & ~(this.#wish?.[q] ?? 0);
    }
    this.#leave = this.#spare;
  }

  /** Begins anew at minute s, in slice k of turnout w: who is free then, and when the capped among them must go. */
  begin(need: Need, w: number, k: number, s: Minute): void {
    const words = this.#words;
    const free = this.free.free(w);
    const { since } = this;
    const { crowd, wished } = this.model;
    for (let q = 0; q < words; q++) since[q] = free[k * words + q] & need.hands[q];
    const held = this.reserving ? wished?.held.get(w) : undefined;
    if (held) for (let q = 0; q < words; q++) since[q] &= ~held[q] | (this.must === null ? 0 : this.must[q]);
    if (!crowd.anyCapped) return;
    for (let q = 0; q < words; q++) {
      for (let pool = since[q] & crowd.capped[q]; pool !== 0;) {
        const bit = pool & -pool;
        pool ^= bit;
        const r = (q << 5) + 31 - Math.clz32(bit);
        this.#goes[r] = this.caps.until(w, r, s);
        if (this.#goes[r] <= s) since[q] ^= bit;
      }
    }
  }

  /** Keeps of them those who are free in slice k as well. */
  goOn(w: number, k: number): void {
    const free = this.free.free(w);
    for (let q = 0; q < this.#words; q++) this.since[q] &= free[k * this.#words + q];
  }

  /** The first minute in (s, u] at which a capped person of `since` has to go, or u. */
  firstToGo(s: Minute, u: Minute): Minute {
    const { crowd } = this.model;
    if (!crowd.anyCapped) return u;
    let first = u;
    for (let q = 0; q < this.#words; q++) {
      for (let pool = this.since[q] & crowd.capped[q]; pool !== 0;) {
        const bit = pool & -pool;
        pool ^= bit;
        const goes = this.#goes[(q << 5) + 31 - Math.clz32(bit)];
        if (goes > s && goes < first) first = goes;
      }
    }
    return first;
  }

  /** Those whose cap is reached at minute u go. */
  sendHome(u: Minute): void {
    const { crowd } = this.model;
    if (!crowd.anyCapped) return;
    for (let q = 0; q < this.#words; q++) {
      for (let pool = this.since[q] & crowd.capped[q]; pool !== 0;) {
        const bit = pool & -pool;
        pool ^= bit;
        if (this.#goes[(q << 5) + 31 - Math.clz32(bit)] <= u) this.since[q] ^= bit;
      }
    }
  }

  /** Chooses a crew for [s, u) among those free since s. */
  choose(i: number, need: Need, s: Minute, u: Minute): boolean {
    const { chooser, since, must } = this;
    return chooser.choose(i, need, since, 0, this.#target, s, u, must, this.#wish, this.#leave);
  }

  /** No crew of those in `since` is faster than this. */
  mostPace(i: number, need: Need): number {
    const { minutes, most } = this.model;
    if (minutes[i] >= 0) return 1;
    let sum = 0;
    for (let q = 0; q < this.#words; q++) sum += bits(this.since[q]);
    let hands = this.#target > need.lean ? this.#target : need.lean;
    // One more may come to stand beside a learner, and all whom firm postings name.
    if (need.anyLearner) hands++;
    if (this.must !== null || hands > most[i]) hands = most[i];
    return sum < hands ? sum : hands;
  }

  /** Whether enough fit people come to turnout w at all. */
  mayCome(i: number, need: Need, w: number): boolean {
    const index = this.model.need[i];
    if (index < 0) return true;
    let able = this.#able[index];
    if (!able) {
      const { presence, calendar } = this.model;
      able = new Uint8Array(calendar.count);
      for (let v = 0; v < calendar.count; v++) {
        able[v] = this.chooser.mayDo(need, presence.ever, v * this.#words) ? 1 : 0;
      }
      this.#able[index] = able;
    }
    return able[w] === 1;
  }

  /**
   * The first minute in turnout w, t at least, at which there are people enough for a crew, by counting alone; the
   * turnout's end where there are none. People only become fewer during a pass, so what was looked at is remembered.
   */
  firstCrew(i: number, need: Need, w: number, t: Minute): Minute {
    const { calendar } = this.model;
    const index = this.model.need[i];
    if (index < 0) return t;
    const at = index * calendar.count + w;
    const known = this.#lostIn[at] === this.#pass && this.#lostFrom[at] <= t && this.#lostTo[at] >= t;
    const end = calendar.end[w];
    let s = known ? this.#lostTo[at] : t;
    if (s < end) {
      const free = this.free.free(w);
      let k = this.free.slice(w, s);
      while (!this.chooser.mayDo(need, free, k * this.#words)) {
        s = this.sliceEnd(w, k++);
        if (s >= end) break;
      }
    }
    if (!known) {
      this.#lostIn[at] = this.#pass;
      this.#lostFrom[at] = t;
    }
    this.#lostTo[at] = s;
    return s;
  }

  /** The minute at which slice k of turnout w ends. */
  sliceEnd(w: number, k: number): Minute {
    return k + 1 < this.free.count(w) ? this.free.from(w)[k + 1] : this.model.calendar.end[w];
  }

  /** First minute, t at least, at which all tools of task i are free; NEVER when there is none. */
  toolsFrom(i: number, t: Minute): Minute {
    const { toolAt, toolPairs } = this.model;
    const last = toolAt[i + 1];
    let from = t;
    for (let q = toolAt[i]; q < last;) {
      const next = this.#tools[toolPairs[q]].freeFrom(from, toolPairs[q + 1]);
      if (next === NEVER) return NEVER;
      if (next > from) {
        from = next;
        q = toolAt[i];
        if (last - q === 2) break;
      } else q += 2;
    }
    return from;
  }

  /** First minute after t, `to` at most, at which some tool of task i is short. */
  toolsShort(i: number, t: Minute, to: Minute): Minute {
    const { toolAt, toolPairs } = this.model;
    let short = to;
    for (let q = toolAt[i]; q < toolAt[i + 1]; q += 2) {
      const next = this.#tools[toolPairs[q]].shortFrom(t, toolPairs[q + 1]);
      if (next < short) short = next;
    }
    return short;
  }

  /** Takes people and tools for a segment; w is -1 for time that passes by itself. */
  commit(i: number, w: number, start: Minute, end: Minute, crews: Int32Array, at: number): void {
    const { toolAt, toolPairs } = this.model;
    for (let q = toolAt[i]; q < toolAt[i + 1]; q += 2)
      this.#tools[toolPairs[q]].take(start, end, toolPairs[q + 1]);
    if (w >= 0) {
      this.free.take(w, start, end, crews, at);
      this.caps.book(w, start, end, crews, at, 1);
    }
    this.segments.add(i, w, start, end, crews, at);
  }
}
