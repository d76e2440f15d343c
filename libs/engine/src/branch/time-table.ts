import { Profiles, type Piece, type Resource } from './profiles.js';
import type { Literals, Trail } from './trail.js';

/**
 * No piece may lie where what surely runs leaves too little for it. (Time-table and its explanation minute by minute:
 * Schutt, Feydy, Stuckey and Wallace 2011, from memory.)
 */
export class TimeTable {
  readonly profiles: Profiles;
  readonly #trail: Trail;
  readonly #name: number;
  /** Where the last conflict was. */
  #conflictAt = 0;
  /** Uses found to lie over a minute, with height and age. */
  readonly #found: Int32Array;

  /** @param name what the trail knows this by @param span minutes, all pieces end by then */
  constructor(trail: Trail, pieces: Piece[], resources: Resource[], span: number, name: number) {
    this.#trail = trail;
    this.#name = name;
    this.profiles = new Profiles(trail, pieces, resources, span);
    this.#found = new Int32Array(3 * Math.max(1, ...this.profiles.usesOn.map((on) => on.length)));
  }

  /** Pushes pieces out of minutes that have too little for them. */
  filter(): boolean {
    const trail = this.#trail;
    const { bound } = trail;
    const dirty = this.profiles.dirty;
    while (this.profiles.dirtyCount > 0) {
      const r = dirty[--this.profiles.dirtyCount];
      const from = this.profiles.dirtyFrom[r];
      const to = this.profiles.dirtyTo[r];
      this.profiles.dirtyTo[r] = -1;
      const profile = this.profiles.profile[r];
      const limit = this.profiles.limit[r];
      let most = 0;
      let at = from;
      for (let t = from; t < to; t++) {
        if (profile[t] > most) {
          most = profile[t];
          at = t;
        }
      }
      if (most > limit) {
        this.#conflictAt = r * this.profiles.span + at;
        this.#failOn();
        return false;
      }
      const room = limit - most;
      const on = this.profiles.usesOn[r];
      for (let k = 0; k < on.length; k++) {
        const u = on[k];
        if (this.profiles.most[u] <= room) break;
        const i = this.profiles.usePiece[u];
        if (this.profiles.isMoved[i] !== 0) continue;
        if (this.profiles.useVariable[u] >= 0 && !this.#lower(u, from, to)) return false;
        const h = this.profiles.height[u];
        if (h <= room) continue;
        const s = 2 * this.profiles.start[i];
        const low = bound[s];
        const high = -bound[s + 1];
        if (low === high) continue;
        const length = this.profiles.length[i];
        if (low < to && low + length > from && !this.#sweepLow(u, from, to)) return false;
        if (high < to && high + length > from && !this.#sweepHigh(u, from, to)) return false;
      }
    }
    while (this.profiles.movedCount > 0) {
      const i = this.profiles.moved[--this.profiles.movedCount];
      this.profiles.isMoved[i] = 0;
      for (let u = this.profiles.useAt[i]; u < this.profiles.useAt[i + 1]; u++) {
        if (this.profiles.useVariable[u] >= 0 && !this.#lower(u, 0, this.profiles.span)) return false;
        if (this.profiles.height[u] === 0) continue;
        if (!this.#sweepLow(u, 0, this.profiles.span) || !this.#sweepHigh(u, 0, this.profiles.span))
          return false;
      }
    }
    return true;
  }

  /** Why a side got a value, as things stood before entry `at`. @param info what the trail remembered */
  explain(side: number, value: number, info: number, at: number, out: Literals): void {
    const t = info % this.profiles.span;
    const r = (info - t) / this.profiles.span;
    const x = side >> 1;
    const u = this.profiles.useOf[x];
    if (u >= 0) {
      const i = this.profiles.usePiece[u];
      this.#coverLiterals(i, t, out);
      // The use may be `allowed` at most: one more and there were too much.
      const allowed = -value;
      this.#others(r, t, i, this.profiles.limit[r] - allowed - 1, at, out);
      return;
    }
    const i = this.profiles.pieceOf[x];
    let height = 0;
    for (let q = this.profiles.useAt[i]; q < this.profiles.useAt[i + 1]; q++) {
      if (this.profiles.useResource[q] !== r) continue;
      const variable = this.profiles.useVariable[q];
      height = variable < 0 ? this.profiles.height[q] : this.#trail.boundBefore(2 * variable, at);
      if (variable >= 0) out.add(2 * variable, height);
    }
    if ((side & 1) === 0) out.add(side, t + 1 - this.profiles.length[i]);
    else out.add(side, -t);
    this.#others(r, t, i, this.profiles.limit[r] - height, at, out);
  }

  /** Why the last overload is one. */
  explainOverload(out: Literals): void {
    const t = this.#conflictAt % this.profiles.span;
    const r = (this.#conflictAt - t) / this.profiles.span;
    this.#others(r, t, -1, this.profiles.limit[r], this.#trail.length, out);
  }

  #failOn(): void {
    const { failed } = this.#trail;
    failed.reason = this.#name;
    failed.side = -1;
  }

  /** Literals that more than `limit` is taken in minute t by others than piece `not`; no more of them than needed. */
  #others(r: number, t: number, not: number, limit: number, at: number, out: Literals): void {
    const trail = this.#trail;
    const { bound } = trail;
    const found = this.#found;
    const on = this.profiles.usesOn[r];
    let count = 0;
    let over = this.profiles.taken[r][t] - limit - 1;
    for (let k = 0; k < on.length; k++) {
      const u = on[k];
      const i = this.profiles.usePiece[u];
      if (i === not) continue;
      const s = 2 * this.profiles.start[i];
      const low = t + 1 - this.profiles.length[i];
      if (bound[s] < low || bound[s + 1] < -t) continue;
      const a = trail.entryOf(s, low);
      if (a >= at) continue;
      const b = trail.entryOf(s + 1, -t);
      if (b >= at) continue;
      const variable = this.profiles.useVariable[u];
      const height = variable < 0 ? this.profiles.height[u] : trail.boundBefore(2 * variable, at);
      if (height <= 0) continue;
      const since = a > b ? a : b;
      over += height;
      // Insertion by age, latest first: what is known for longest is said rather.
      let q = count++;
      while (q > 0 && found[3 * q - 1] < since) {
        found[3 * q] = found[3 * q - 3];
        found[3 * q + 1] = found[3 * q - 2];
        found[3 * q + 2] = found[3 * q - 1];
        q--;
      }
      found[3 * q] = u;
      found[3 * q + 1] = height;
      found[3 * q + 2] = since;
    }
    for (let q = 0; q < count; q++) {
      const u = found[3 * q];
      const height = found[3 * q + 1];
      if (height <= over) {
        over -= height;
        continue;
      }
      this.#coverLiterals(this.profiles.usePiece[u], t, out);
      const variable = this.profiles.useVariable[u];
      if (variable < 0) continue;
      out.add(2 * variable, height - over);
      over = 0;
    }
  }

  /** Piece i runs in minute t. */
  #coverLiterals(i: number, t: number, out: Literals): void {
    const s = 2 * this.profiles.start[i];
    out.add(s, t + 1 - this.profiles.length[i]);
    out.add(s + 1, -t);
  }

  /** Raises the earliest start over minutes of [from, to) that have too little. */
  #sweepLow(u: number, from: number, to: number): boolean {
    const trail = this.#trail;
    const i = this.profiles.usePiece[u];
    const r = this.profiles.useResource[u];
    const profile = this.profiles.profile[r];
    const most = this.profiles.limit[r] - this.profiles.height[u];
    const own = this.profiles.from[i];
    const ownEnd = this.profiles.to[i];
    const length = this.profiles.length[i];
    const s = 2 * this.profiles.start[i];
    let start = trail.bound[s];
    let first = start > from ? start : from;
    let t = (start + length < to ? start + length : to) - 1;
    while (t >= first) {
      if (profile[t] <= most) {
        t--;
        continue;
      }
      if (t >= own && t < ownEnd) {
        t = own - 1;
        continue;
      }
      if (!trail.set(s, t + 1, this.#name, r * this.profiles.span + t)) return false;
      const seen = start + length;
      start = t + 1;
      // Minutes that come into the window were not among those to look at.
      first = seen > start ? seen : start;
      t = start + length - 1;
    }
    return true;
  }

  /** Lowers the latest start in the same way. */
  #sweepHigh(u: number, from: number, to: number): boolean {
    const trail = this.#trail;
    const i = this.profiles.usePiece[u];
    const r = this.profiles.useResource[u];
    const profile = this.profiles.profile[r];
    const most = this.profiles.limit[r] - this.profiles.height[u];
    const own = this.profiles.from[i];
    const ownEnd = this.profiles.to[i];
    const length = this.profiles.length[i];
    const s = 2 * this.profiles.start[i] + 1;
    let start = -trail.bound[s];
    let last = start + length < to ? start + length : to;
    let t = start > from ? start : from;
    while (t < last) {
      if (profile[t] <= most) {
        t++;
        continue;
      }
      if (t >= own && t < ownEnd) {
        t = ownEnd;
        continue;
      }
      if (!trail.set(s, length - t, this.#name, r * this.profiles.span + t)) return false;
      const seen = start;
      start = t - length;
      last = seen < t ? seen : t;
      t = start;
    }
    return true;
  }

  /** Lowers what a use may take to what others leave in the minutes of [from, to) in which its piece surely runs. */
  #lower(u: number, from: number, to: number): boolean {
    const i = this.profiles.usePiece[u];
    const a = this.profiles.from[i] > from ? this.profiles.from[i] : from;
    const b = this.profiles.to[i] < to ? this.profiles.to[i] : to;
    if (a >= b) return true;
    const r = this.profiles.useResource[u];
    const profile = this.profiles.profile[r];
    let most = -1;
    let at = a;
    for (let t = a; t < b; t++) {
      if (profile[t] <= most) continue;
      most = profile[t];
      at = t;
    }
    const allowed = this.profiles.limit[r] - most + this.profiles.height[u];
    return this.#trail.set(
      2 * this.profiles.useVariable[u] + 1,
      -allowed,
      this.#name,
      r * this.profiles.span + at,
    );
  }
}
