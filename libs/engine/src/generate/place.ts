import { NEVER } from '../calendar.js';
import { Kind } from '../model/kind.js';
import type { Model } from '../model/model.js';
import type { Need } from '../model/people.js';
import type { Minute } from '../problem.js';
import { Chain } from './chain.js';
import { Floor } from './floor.js';
import type { Segments } from './segments.js';

/** How many hands a task is given where there is a choice. */
export const Hands = { Efficient: 0, Lean: 1, Most: 2 } as const;

/**
 * Places one task after another on turnouts, people and tools: always at the earliest minute at which it can run,
 * around everything placed before.
 */
export class Placer {
  /** Set by `place`: the task's first start and last end. */
  start: Minute = 0;
  end: Minute = 0;
  /** Why the last placing failed: a firm posting that can't hold, or no room before the horizon. */
  brokePosting = false;

  readonly #model: Model;
  readonly #floor: Floor;
  readonly #chain: Chain;
  readonly #words: number;
  readonly #nobody: Need;
  #target = 0;

  constructor(model: Model) {
    this.#model = model;
    this.#floor = new Floor(model);
    this.#chain = new Chain(this.#floor);
    this.#words = model.crowd.words;
    const none = new Int32Array(this.#words);
    const asksNothing = { lean: 0, seated: 0, gate: 0, seats: [], anyLearner: false, simple: true };
    this.#nobody = { ...asksNothing, hands: none, learners: none, alone: none };
  }

  /** Everything placed since `reset`, in the order of placing. */
  get segments(): Segments {
    return this.#floor.segments;
  }

  /** While true, people are left alone whom a firm posting names elsewhere. */
  set reserving(reserving: boolean) {
    this.#floor.reserving = reserving;
  }

  reset(): void {
    this.#floor.reset();
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
        if (model.problem.tasks[i].effort.kind === 'hold')
          this.#floor.commit(i, -1, this.start, this.start, this.#nobody.hands, 0);
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
      start = this.#floor.toolsFrom(i, start);
      if (start + length > model.horizon) return false;
      const short = this.#floor.toolsShort(i, start, start + length);
      if (short >= start + length) break;
      start = short;
    }
    this.#floor.commit(i, -1, start, start + length, this.#nobody.hands, 0);
    this.start = start;
    this.end = start + length;
    return true;
  }

  /** Nobody is kept from other work, but somebody fit to say so has to be there at that minute. */
  #saySo(i: number, need: Need, from: Minute): boolean {
    const { calendar, presence, horizon, wished } = this.#model;
    const words = this.#words;
    const firm = wished?.firmTurnouts.get(i);
    const here = this.#floor.since;
    let w = calendar.turnoutAfter(from);
    if (w > 0 && calendar.end[w - 1] === from) w--;
    for (; w < calendar.count && calendar.start[w] <= horizon; w++) {
      // Firm at two turnouts at once is more than one piece can keep.
      if (firm && (firm.length > 1 || firm[0] !== w)) continue;
      if (!this.#floor.mayCome(i, need, w)) continue;
      this.#floor.aim(i, w, this.#target);
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
        if (!this.#floor.choose(i, need, t, t)) continue;
        this.#floor.segments.add(i, w, t, t, this.#floor.chooser.crew, 0);
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
      if (!this.#floor.mayCome(i, need, w)) continue;
      this.#floor.free.open(w);
      this.#floor.aim(i, w, this.#target);
      if (!this.#bout(i, need, w, from, atEnd)) continue;
      if (this.end > horizon) return false;
      this.#floor.commit(i, w, this.start, this.end, this.#floor.chooser.crew, 0);
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
    const floor = this.#floor;
    const { chooser } = floor;
    let s = from > model.calendar.start[w] ? from : model.calendar.start[w];
    for (;;) {
      s = this.#floor.firstCrew(i, need, w, s);
      if (s < end) s = this.#floor.toolsFrom(i, s);
      if (s >= end || (fixed >= 0 && s + fixed > end)) return false;
      const to = this.#floor.toolsShort(i, s, end);
      let k = this.#floor.free.slice(w, s);
      const bump = floor.sliceEnd(w, k);
      floor.begin(need, w, k, s);
      let found: Minute = NEVER;
      for (let u = bump; ; u = floor.sliceEnd(w, k)) {
        if (!chooser.mayDo(need, this.#floor.since, 0)) break;
        if (u > to) u = to;
        u = floor.firstToGo(s, u);
        if (fixed >= 0) {
          if (s + fixed <= u) {
            if (floor.choose(i, need, s, s + fixed)) found = s + fixed;
            break;
          }
        } else if (floor.mostPace(i, need) * (u - s) >= amount - 1e-9) {
          if (!floor.choose(i, need, s, u)) break;
          if (chooser.pace > 0) {
            const e = s + Math.ceil(amount / chooser.pace - 1e-9);
            if (e <= u) {
              found = e;
              break;
            }
          }
        }
        if (u >= to) break;
        floor.sendHome(u);
        if (u === floor.sliceEnd(w, k)) floor.goOn(w, ++k);
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
      if ((firm && !posted && w < lastFirm) || !this.#floor.mayCome(i, need, w)) {
        if (posted) break;
        w++;
        continue;
      }
      this.#floor.free.open(w);
      this.#floor.aim(i, w, this.#target);
      if (!this.#chain.find(i, need, w, t, left, begun ? model.setUp[i] : 0, atEnd, w < lastFirm)) {
        if (posted) break;
        w++;
        continue;
      }
      const { segments: chain } = this.#chain;
      if (!begun) this.start = chain.start[0];
      begun = true;
      for (let c = 0; c < chain.count; c++) {
        this.#floor.commit(i, w, chain.start[c], chain.end[c], chain.crew, c * this.#words);
      }
      left = this.#chain.left;
      t = chain.end[chain.count - 1];
      if (left <= 0) {
        this.end = t;
        return t <= horizon;
      }
      if (t >= calendar.end[w] || this.#floor.must !== null) w++;
    }
    this.brokePosting = firm !== undefined;
    return false;
  }
}
