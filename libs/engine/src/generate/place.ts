import { NEVER } from '../calendar.js';
import { Kind, type Model } from '../model/model.js';
import { bits, type Need } from '../model/people.js';
import type { Minute } from '../problem.js';
import { Caps } from './caps.js';
import { CrewChooser } from './crew.js';
import { Segments } from './segments.js';
import { FreePeople } from './slices.js';
import { ToolTimeline } from './steps.js';

/** A stretch shorter than this at the end of a turnout is not begun, where the turnout is long enough to matter. */
const LEAST_STRETCH = 15;
const LONG_TURNOUT = 120;

const NOBODY: Need = {
  lean: 0,
  seated: 0,
  hands: new Int32Array(0),
  gate: 0,
  seats: [],
  learners: new Int32Array(0),
  alone: new Int32Array(0),
  anyLearner: false,
  simple: true,
};

/** How many hands a task is given where there is a choice. */
export const Hands = { Efficient: 0, Lean: 1, Most: 2 } as const;

/**
 * Places one task after another on turnouts, people and tools: always at the earliest minute at which it can run,
 * around everything placed before. Within a turnout a task that may stop goes on until the turnout ends or one of
 * its crew must leave; the crew may change on the way.
 */
export class Placer {
  readonly segments: Segments;
  readonly chooser: CrewChooser;
  /** Set by `place`: the task's first start and last end. */
  start: Minute = 0;
  end: Minute = 0;
  /** Why the last placing failed: a firm posting that can't hold, or no room before the horizon. */
  brokePosting = false;
  /** True while tasks with firm postings are placed: who is posted elsewhere is left alone. */
  reserving = false;

  readonly #model: Model;
  readonly #words: number;
  readonly #free: FreePeople;
  readonly #tools: ToolTimeline[];
  readonly #caps: Caps;
  readonly #able: (Uint8Array | undefined)[] = [];
  readonly #nobody: Need;
  /** Running set of people free since the segment's start, and the minute at which each capped one must go. */
  readonly #since: Int32Array;
  readonly #goes: Int32Array;
  readonly #spare: Int32Array;
  /** People whom a cap or a clearance that lapses may send home before their stay ends. */
  readonly #mayGo: Int32Array;
  #must: Int32Array | null = null;
  #wish: Int32Array | null = null;
  #leave: Int32Array | null = null;
  #target = 0;
  /** The chain of segments within one turnout that is being tried. */
  readonly #chain: Segments;
  readonly #best: Int32Array;
  #left = 0;

  constructor(model: Model) {
    this.#model = model;
    const { words, count } = model.crowd;
    this.#words = words;
    this.segments = new Segments(words);
    this.#chain = new Segments(words);
    this.chooser = new CrewChooser(model);
    this.#free = new FreePeople(model);
    this.#tools = model.tools.map((steps) => new ToolTimeline(steps));
    this.#caps = new Caps(model);
    this.#since = new Int32Array(words);
    this.#best = new Int32Array(words);
    this.#goes = new Int32Array(count);
    this.#spare = new Int32Array(words);
    this.#mayGo = model.crowd.gates.some((gate) => gate.lapses)
      ? new Int32Array(words).fill(-1)
      : model.crowd.capped.slice();
    const none = new Int32Array(words);
    this.#nobody = { ...NOBODY, hands: none, learners: none, alone: none };
  }

  reset(): void {
    this.segments.count = 0;
    this.#free.reset();
    this.#caps.reset();
    for (const tool of this.#tools) tool.reset();
  }

  /**
   * Places task i to start at `from` or later and to end at `atEnd` or later.
   * @returns false when it finds no room, or breaks a firm posting
   */
  place(i: number, from: Minute, atEnd: Minute, hands: number): boolean {
    this.brokePosting = false;
    const model = this.#model;
    switch (model.kind[i]) {
      case Kind.Mark:
        this.start = this.end = from > atEnd ? from : atEnd;
        if (model.problem.tasks[i].effort.kind === 'hold') this.#note(i, -1, this.start, this.start);
        return this.end <= model.horizon;
      case Kind.Elapsed:
        return this.#elapse(i, from, atEnd);
      default:
    }
    const need = model.need[i] < 0 ? this.#nobody : model.needs[model.need[i]];
    const efficient = model.efficient[i];
    this.#target =
      model.minutes[i] >= 0 || hands === Hands.Lean
        ? need.lean
        : hands === Hands.Most
          ? model.most[i]
          : efficient;
    if (model.kind[i] === Kind.SaySo) return this.#saySo(i, need, from > atEnd ? from : atEnd);
    return model.kind[i] === Kind.Split
      ? this.#split(i, need, from, atEnd)
      : this.#inOneGo(i, need, from, atEnd);
  }

  #elapse(i: number, from: Minute, atEnd: Minute): boolean {
    const model = this.#model;
    const length = model.minutes[i];
    let start = Math.max(from, atEnd - length);
    for (;;) {
      start = this.#toolsFrom(i, start);
      if (start + length > model.horizon) return false;
      const short = this.#toolsShort(i, start, start + length);
      if (short >= start + length) break;
      start = short;
    }
    this.#commit(i, -1, start, start + length, this.#nobody.hands, 0);
    this.start = start;
    this.end = start + length;
    return true;
  }

  /** Nobody is kept from other work, but somebody fit to say so has to be there at that minute. */
  #saySo(i: number, need: Need, from: Minute): boolean {
    const { calendar, presence, horizon, wished } = this.#model;
    const words = this.#words;
    const firm = wished?.firmTurnouts.get(i);
    const here = this.#since;
    let w = calendar.turnoutAfter(from);
    if (w > 0 && calendar.end[w - 1] === from) w--;
    for (; w < calendar.count && calendar.start[w] <= horizon; w++) {
      // Firm at two turnouts at once is more than one piece can keep.
      if (firm && (firm.length > 1 || firm[0] !== w)) continue;
      if (!this.#mayCome(i, need, w)) continue;
      this.#wishes(i, w);
      const a = presence.first[w];
      const b = presence.first[w + 1];
      for (let k = a; k <= b; k++) {
        const t = Math.max(from, k < b ? presence.from[k] : calendar.end[w]);
        if (t > horizon || t > calendar.end[w]) continue;
        if (k < b && t > (k + 1 < b ? presence.from[k + 1] : calendar.end[w])) continue;
        // Whoever comes or leaves at this very minute is there.
        here.fill(0);
        for (let q = a; q < b; q++) {
          const until = q + 1 < b ? presence.from[q + 1] : calendar.end[w];
          if (presence.from[q] > t || until < t) continue;
          for (let word = 0; word < words; word++) here[word] |= presence.here[q * words + word];
        }
        if (!this.chooser.choose(i, need, here, 0, this.#target, t, t, this.#must, this.#wish, this.#leave))
          continue;
        this.segments.add(i, w, t, t, this.chooser.crew, 0);
        this.start = this.end = t;
        return true;
      }
    }
    this.brokePosting = firm !== undefined;
    return false;
  }

  #inOneGo(i: number, need: Need, from: Minute, atEnd: Minute): boolean {
    const { calendar, horizon, wished } = this.#model;
    const firm = wished?.firmTurnouts.get(i);
    for (let w = calendar.turnoutAfter(from); w < calendar.count && calendar.start[w] < horizon; w++) {
      // Firm at two turnouts at once is more than one piece can keep.
      if (firm && (firm.length > 1 || firm[0] !== w)) continue;
      if (!this.#mayCome(i, need, w)) continue;
      this.#free.open(w);
      this.#wishes(i, w);
      if (!this.#bout(i, need, w, from, atEnd)) continue;
      if (this.end > horizon) return false;
      this.#commit(i, w, this.start, this.end, this.chooser.crew, 0);
      return true;
    }
    this.brokePosting = firm !== undefined;
    return false;
  }

  /** The earliest uninterrupted run inside turnout w; sets start, end and the crew. */
  #bout(i: number, need: Need, w: number, from: Minute, atEnd: Minute): boolean {
    const model = this.#model;
    const end = model.calendar.end[w];
    const fixed = model.minutes[i];
    const amount = model.amount[i];
    const { chooser } = this;
    let s = from > model.calendar.start[w] ? from : model.calendar.start[w];
    for (;;) {
      s = this.#toolsFrom(i, s);
      if (s >= end || (fixed >= 0 && s + fixed > end)) return false;
      const to = this.#toolsShort(i, s, end);
      let k = this.#free.slice(w, s);
      const bump = this.#sliceEnd(w, k);
      this.#gather(need, w, k, s, true);
      let found: Minute = NEVER;
      for (let u = bump; ; u = this.#sliceEnd(w, k)) {
        if (!chooser.mayDo(need, this.#since, 0)) break;
        if (u > to) u = to;
        u = this.#firstToGo(s, u);
        if (fixed >= 0) {
          if (s + fixed <= u) {
            if (this.#choose(i, need, s, s + fixed)) found = s + fixed;
            break;
          }
        } else if (this.#mostPace(i, need) * (u - s) >= amount - 1e-9) {
          if (!this.#choose(i, need, s, u)) break;
          if (chooser.pace > 0) {
            const e = s + Math.ceil(amount / chooser.pace - 1e-9);
            if (e <= u) {
              found = e;
              break;
            }
          }
        }
        if (u >= to) break;
        this.#sendHome(u);
        if (u === this.#sliceEnd(w, k)) this.#gather(need, w, ++k, s, false);
      }
      if (found !== NEVER && found >= atEnd) {
        this.start = s;
        this.end = found;
        return true;
      }
      const next = found !== NEVER ? s + (atEnd - found) : bump;
      if (next >= end) return false;
      s = next;
    }
  }

  #split(i: number, need: Need, from: Minute, atEnd: Minute): boolean {
    const model = this.#model;
    const { calendar, horizon, wished } = model;
    const firm = wished?.firmTurnouts.get(i);
    const lastFirm = firm ? firm[firm.length - 1] : -1;
    let left = model.amount[i];
    let t = from;
    let begun = false;
    if (firm !== undefined && firm[0] < calendar.turnoutAfter(t)) {
      this.brokePosting = true;
      return false;
    }
    for (let w = calendar.turnoutAfter(t); w < calendar.count && calendar.start[w] < horizon;) {
      const posted = firm !== undefined && firm.includes(w);
      if ((firm && !posted && w < lastFirm) || !this.#mayCome(i, need, w)) {
        if (posted) break;
        w++;
        continue;
      }
      this.#free.open(w);
      this.#wishes(i, w);
      if (!this.#stretch(i, need, w, t, left, begun ? model.setUp[i] : 0, atEnd, w < lastFirm)) {
        if (posted) break;
        w++;
        continue;
      }
      const chain = this.#chain;
      if (!begun) this.start = chain.start[0];
      begun = true;
      for (let c = 0; c < chain.count; c++) {
        this.#commit(i, w, chain.start[c], chain.end[c], chain.crew, c * this.#words);
      }
      left = this.#left;
      t = chain.end[chain.count - 1];
      if (left <= 0) {
        this.end = t;
        return t <= horizon;
      }
      if (t >= calendar.end[w] || this.#must !== null) w++;
    }
    this.brokePosting = firm !== undefined;
    return false;
  }

  /**
   * The earliest chain of touching segments inside turnout w that ends with the work, with the turnout or where
   * somebody must leave. Leaves it in `#chain` and what is left of the work in `#left`.
   */
  #stretch(
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
      s = this.#toolsFrom(i, s);
      if (s >= end) return false;
      const found =
        this.#tryChain(i, need, w, s, amount, setUp, false) ||
        this.#tryChain(i, need, w, s, amount, setUp, true);
      if (found) {
        const chain = this.#chain;
        const last = chain.end[chain.count - 1];
        if (this.#left > 0) {
          if (end - begin < LONG_TURNOUT || last - s >= LEAST_STRETCH || last < end) return true;
          return false;
        }
        if (leaveSome) s += Math.max(1, end - last + 1);
        else if (last < atEnd) s += atEnd - last;
        else return true;
      } else {
        s = this.#sliceEnd(w, this.#free.slice(w, s));
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
    const chain = this.#chain;
    chain.count = 0;
    const found = this.#follow(i, need, w, s, amount, setUp, steady);
    // The chain's minutes counted against the caps only while it was tried.
    for (let c = 0; c < chain.count; c++) {
      this.#caps.book(w, chain.start[c], chain.end[c], chain.crew, c * this.#words, -1);
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
    const chain = this.#chain;
    const { chooser } = this;
    const end = this.#model.calendar.end[w];
    let left = amount;
    let lost = setUp;
    for (let now = s; ;) {
      const to = this.#toolsShort(i, now, end);
      let k = this.#free.slice(w, now);
      this.#gather(need, w, k, now, true);
      let until: Minute = -1;
      let most = 0;
      let done = false;
      if (to > now) {
        for (let u = this.#sliceEnd(w, k); ; u = this.#sliceEnd(w, k)) {
          if (!chooser.mayDo(need, this.#since, 0)) break;
          if (u > to) u = to;
          u = this.#firstToGo(now, u);
          if (u > now) {
            if (!this.#choose(i, need, now, u)) break;
            const { pace } = chooser;
            const gain = (u - now - lost) * pace;
            if (gain >= left - 1e-9) {
              until = now + lost + Math.ceil(left / pace - 1e-9);
              this.#best.set(chooser.crew);
              done = true;
              break;
            }
            if (gain > 0 && (steady || gain >= most)) {
              most = gain;
              until = u;
              this.#best.set(chooser.crew);
            }
          }
          if (u >= to) break;
          this.#sendHome(u);
          if (u === this.#sliceEnd(w, k)) this.#gather(need, w, ++k, now, false);
        }
      }
      if (until < 0) {
        this.#left = left;
        return chain.count > 0 && this.#mustStop(i, w, now);
      }
      chain.add(i, w, now, until, this.#best, 0);
      this.#caps.book(w, now, until, this.#best, 0, 1);
      if (done) {
        this.#left = 0;
        return true;
      }
      left -= most;
      lost = 0;
      now = until;
      if (now >= end) {
        this.#left = left;
        return true;
      }
    }
  }

  /** Somebody of the chain's last crew has to go at minute t, or a tool's capacity changes. */
  #mustStop(i: number, w: number, t: Minute): boolean {
    const { presence, crowd, toolAt, toolPairs, tools } = this.#model;
    for (let q = toolAt[i]; q < toolAt[i + 1]; q += 2) if (tools[toolPairs[q]].at.includes(t)) return true;
    const chain = this.#chain;
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
        if (capped && this.#caps.until(w, r, t) === t && !this.#worksAfter(r, w, t)) return true;
      }
    }
    return false;
  }

  /** Whether person r is already planned after minute t in the turnout or the week. */
  #worksAfter(r: number, w: number, t: Minute): boolean {
    const { count, end, turnout, crew } = this.segments;
    for (let k = 0; k < count; k++) {
      if (turnout[k] < w || end[k] <= t) continue;
      if ((crew[k * this.#words + (r >> 5)] & (1 << (r & 31))) !== 0) return true;
    }
    return false;
  }

  /** Sets `#since` to who is free in slice k (or keeps of it those who are), and when the capped among them must go. */
  #gather(need: Need, w: number, k: number, s: Minute, anew: boolean): void {
    const words = this.#words;
    const free = this.#free.free(w);
    const since = this.#since;
    if (!anew) {
      for (let q = 0; q < words; q++) since[q] &= free[k * words + q];
      return;
    }
    const { crowd, wished } = this.#model;
    for (let q = 0; q < words; q++) since[q] = free[k * words + q] & need.hands[q];
    if (this.reserving) {
      const held = wished?.held.get(w);
      if (held)
        for (let q = 0; q < words; q++) since[q] &= ~held[q] | (this.#must === null ? 0 : this.#must[q]);
    }
    if (!crowd.anyCapped) return;
    for (let q = 0; q < words; q++) {
      for (let pool = since[q] & crowd.capped[q]; pool !== 0;) {
        const bit = pool & -pool;
        pool ^= bit;
        const r = (q << 5) + 31 - Math.clz32(bit);
        this.#goes[r] = this.#caps.until(w, r, s);
        if (this.#goes[r] <= s) since[q] ^= bit;
      }
    }
  }

  /** The first minute in (s, u] at which a capped person of `#since` has to go, or u. */
  #firstToGo(s: Minute, u: Minute): Minute {
    const { crowd } = this.#model;
    if (!crowd.anyCapped) return u;
    let first = u;
    for (let q = 0; q < this.#words; q++) {
      for (let pool = this.#since[q] & crowd.capped[q]; pool !== 0;) {
        const bit = pool & -pool;
        pool ^= bit;
        const goes = this.#goes[(q << 5) + 31 - Math.clz32(bit)];
        if (goes > s && goes < first) first = goes;
      }
    }
    return first;
  }

  #sendHome(u: Minute): void {
    const { crowd } = this.#model;
    if (!crowd.anyCapped) return;
    for (let q = 0; q < this.#words; q++) {
      for (let pool = this.#since[q] & crowd.capped[q]; pool !== 0;) {
        const bit = pool & -pool;
        pool ^= bit;
        if (this.#goes[(q << 5) + 31 - Math.clz32(bit)] <= u) this.#since[q] ^= bit;
      }
    }
  }

  #choose(i: number, need: Need, s: Minute, u: Minute): boolean {
    return this.chooser.choose(
      i,
      need,
      this.#since,
      0,
      this.#target,
      s,
      u,
      this.#must,
      this.#wish,
      this.#leave,
    );
  }

  /** No crew of those in `#since` is faster than this. */
  #mostPace(i: number, need: Need): number {
    let sum = 0;
    for (let q = 0; q < this.#words; q++) sum += bits(this.#since[q]);
    const target = this.#target > need.lean ? this.#target : need.lean;
    const most = this.#model.most[i];
    return Math.min(sum, target > most ? most : target);
  }

  /** Whom the postings of this task and turnout ask for, and who is asked for elsewhere. */
  #wishes(i: number, w: number): void {
    const { wished, calendar } = this.#model;
    this.#must = this.#wish = this.#leave = null;
    if (wished === null) return;
    const key = i * calendar.count + w;
    this.#must = wished.firm.get(key) ?? null;
    this.#wish = wished.soft.get(key) ?? null;
    const asked = wished.asked.get(w);
    if (!asked) return;
    for (let q = 0; q < this.#words; q++) {
      this.#spare[q] = asked[q] & ~(this.#must?.[q] ?? 0) & ~(this.#wish?.[q] ?? 0);
    }
    this.#leave = this.#spare;
  }

  /** Whether enough fit people come to turnout w at all. */
  #mayCome(i: number, need: Need, w: number): boolean {
    const index = this.#model.need[i];
    if (index < 0) return true;
    let able = this.#able[index];
    if (!able) {
      const { presence, calendar } = this.#model;
      able = new Uint8Array(calendar.count);
      for (let v = 0; v < calendar.count; v++) {
        able[v] = this.chooser.mayDo(need, presence.ever, v * this.#words) ? 1 : 0;
      }
      this.#able[index] = able;
    }
    return able[w] === 1;
  }

  #sliceEnd(w: number, k: number): Minute {
    return k + 1 < this.#free.count(w) ? this.#free.from(w)[k + 1] : this.#model.calendar.end[w];
  }

  #toolsFrom(i: number, t: Minute): Minute {
    const { toolAt, toolPairs } = this.#model;
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

  #toolsShort(i: number, t: Minute, to: Minute): Minute {
    const { toolAt, toolPairs } = this.#model;
    let short = to;
    for (let q = toolAt[i]; q < toolAt[i + 1]; q += 2) {
      const next = this.#tools[toolPairs[q]].shortFrom(t, toolPairs[q + 1]);
      if (next < short) short = next;
    }
    return short;
  }

  #commit(i: number, w: number, start: Minute, end: Minute, crews: Int32Array, at: number): void {
    const { toolAt, toolPairs } = this.#model;
    for (let q = toolAt[i]; q < toolAt[i + 1]; q += 2)
      this.#tools[toolPairs[q]].take(start, end, toolPairs[q + 1]);
    if (w >= 0) {
      this.#free.take(w, start, end, crews, at);
      this.#caps.book(w, start, end, crews, at, 1);
    }
    this.segments.add(i, w, start, end, crews, at);
  }

  #note(i: number, w: number, start: Minute, end: Minute): void {
    this.segments.add(i, w, start, end, this.#nobody.hands, 0);
  }
}
