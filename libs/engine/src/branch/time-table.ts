import type { Literals, Trail } from './trail.js';

/** A stretch of a set length that starts at a variable minute and holds parts of some resources. */
export interface Piece {
  start: number;
  length: number;
  uses: Use[];
}

/** How much of a resource a piece holds: a number, or a variable. */
export interface Use {
  resource: number;
  height: number;
  variable?: number;
}

/** So much of something, less what is taken already in each minute from 0 on. */
export interface Resource {
  limit: number;
  taken: ArrayLike<number>;
}

/**
 * Resources by the minute. A piece that must start by minute b and can't end before minute e surely runs in [b, e);
 * what surely runs is added up in a profile, and no piece may lie where the profile leaves too little for it. (Time-table
 * and its explanation minute by minute: Schutt, Feydy, Stuckey and Wallace 2011, from memory.)
 *
 *     earliest   ____|=======|
 *     latest     ________|=======|
 *     surely             |===|
 */
export class TimeTable {
  readonly #trail: Trail;
  readonly #name: number;
  readonly #span: number;
  readonly #limit: Int32Array;
  readonly #taken: ArrayLike<number>[];
  readonly #profile: Int32Array[];

  /** Piece whose start a variable is, and use whose height, or -1. */
  readonly #pieceOf: Int32Array;
  readonly #useOf: Int32Array;
  readonly #start: Int32Array;
  readonly #length: Int32Array;
  /** Where each piece surely runs, as the profile has it. */
  readonly #from: Int32Array;
  readonly #to: Int32Array;
  /** Uses of each piece, as rows; and of each resource, greatest first. */
  readonly #useAt: Int32Array;
  readonly #usesOn: Int32Array[];
  readonly #usePiece: Int32Array;
  readonly #useResource: Int32Array;
  readonly #useVariable: Int32Array;
  readonly #most: Int32Array;
  /** What each use surely takes, as the profile has it. */
  readonly #height: Int32Array;

  /** What to take back: a piece and its span, or -1 less a use and its height. */
  #undo = new Int32Array(3 * 256);
  #undone = 0;
  readonly #undoAt: number[] = [0];

  /** Resources whose profile rose, and between which minutes. */
  readonly #dirty: Int32Array;
  #dirtyCount = 0;
  readonly #dirtyFrom: Int32Array;
  readonly #dirtyTo: Int32Array;
  readonly #moved: Int32Array;
  #movedCount = 0;
  readonly #isMoved: Uint8Array;
  /** Where the last conflict was. */
  #conflictAt = 0;

  readonly #found: Int32Array;

  /** @param name what the trail knows this by @param span minutes, all pieces end by then */
  constructor(trail: Trail, pieces: Piece[], resources: Resource[], span: number, name: number) {
    this.#trail = trail;
    this.#name = name;
    this.#span = span;
    const variables = trail.bound.length >> 1;
    this.#limit = Int32Array.from(resources, (resource) => resource.limit);
    this.#taken = resources.map((resource) => resource.taken);
    this.#profile = resources.map((resource) =>
      Int32Array.from({ length: span }, (_, t) => resource.taken[t]),
    );
    this.#pieceOf = new Int32Array(variables).fill(-1);
    this.#useOf = new Int32Array(variables).fill(-1);
    this.#start = Int32Array.from(pieces, (piece) => piece.start);
    this.#length = Int32Array.from(pieces, (piece) => piece.length);
    this.#from = new Int32Array(pieces.length);
    this.#to = new Int32Array(pieces.length);
    this.#useAt = new Int32Array(pieces.length + 1);
    const uses = pieces.flatMap((piece, i) => {
      this.#pieceOf[piece.start] = i;
      this.#useAt[i + 1] = this.#useAt[i] + piece.uses.length;
      return piece.uses.map((use) => ({ ...use, piece: i }));
    });
    this.#usePiece = Int32Array.from(uses, (use) => use.piece);
    this.#useResource = Int32Array.from(uses, (use) => use.resource);
    this.#useVariable = Int32Array.from(uses, (use) => use.variable ?? -1);
    this.#height = Int32Array.from(uses, (use) => (use.variable === undefined ? use.height : 0));
    this.#most = Int32Array.from(uses, (use) => use.height);
    uses.forEach(({ variable }, u) => {
      if (variable !== undefined) this.#useOf[variable] = u;
    });
    this.#usesOn = resources.map((_, r) =>
      Int32Array.from(
        uses
          .flatMap((use, u) => (use.resource === r ? [u] : []))
          .sort((a, b) => uses[b].height - uses[a].height),
      ),
    );
    this.#dirty = new Int32Array(resources.length);
    this.#dirtyFrom = new Int32Array(resources.length);
    this.#dirtyTo = new Int32Array(resources.length).fill(-1);
    this.#moved = new Int32Array(pieces.length);
    this.#isMoved = new Uint8Array(pieces.length);
    this.#found = new Int32Array(3 * Math.max(1, ...this.#usesOn.map((on) => on.length)));
    for (let x = 0; x < variables; x++) {
      this.rise(2 * x);
      this.rise(2 * x + 1);
    }
    // What holds from the start is never taken back.
    this.#undone = 0;
  }

  /** Takes note that a side rose. */
  rise(side: number): void {
    const x = side >> 1;
    const i = this.#pieceOf[x];
    if (i >= 0) this.#shift(i);
    const u = this.#useOf[x];
    if (u >= 0 && (side & 1) === 0) this.#raise(u);
  }

  openLevel(level: number): void {
    this.#undoAt[level] = this.#undone;
  }

  /** Takes back everything above a level. */
  backTo(level: number): void {
    const first = this.#undoAt[level + 1];
    const undo = this.#undo;
    for (let k = this.#undone - 3; k >= first; k -= 3) {
      const what = undo[k];
      if (what >= 0) {
        this.#span3(what, undo[k + 1], undo[k + 2]);
      } else {
        const u = -1 - what;
        const i = this.#usePiece[u];
        this.#load(u, this.#from[i], this.#to[i], undo[k + 1] - this.#height[u]);
        this.#height[u] = undo[k + 1];
      }
    }
    this.#undone = first;
    this.forget();
  }

  /** Forgets what was noted and not looked at yet. */
  forget(): void {
    for (let k = 0; k < this.#dirtyCount; k++) this.#dirtyTo[this.#dirty[k]] = -1;
    this.#dirtyCount = 0;
    for (let k = 0; k < this.#movedCount; k++) this.#isMoved[this.#moved[k]] = 0;
    this.#movedCount = 0;
  }

  /** Pushes pieces out of minutes that have too little for them. */
  filter(): boolean {
    const trail = this.#trail;
    const { bound } = trail;
    const dirty = this.#dirty;
    while (this.#dirtyCount > 0) {
      const r = dirty[--this.#dirtyCount];
      const from = this.#dirtyFrom[r];
      const to = this.#dirtyTo[r];
      this.#dirtyTo[r] = -1;
      const profile = this.#profile[r];
      const limit = this.#limit[r];
      let most = 0;
      let at = from;
      for (let t = from; t < to; t++) {
        if (profile[t] > most) {
          most = profile[t];
          at = t;
        }
      }
      if (most > limit) {
        this.#conflictAt = r * this.#span + at;
        this.#failOn();
        return false;
      }
      const room = limit - most;
      const on = this.#usesOn[r];
      for (let k = 0; k < on.length; k++) {
        const u = on[k];
        if (this.#most[u] <= room) break;
        const i = this.#usePiece[u];
        if (this.#isMoved[i] !== 0) continue;
        if (this.#useVariable[u] >= 0 && !this.#lower(u, from, to)) return false;
        const h = this.#height[u];
        if (h <= room) continue;
        const s = 2 * this.#start[i];
        const low = bound[s];
        const high = -bound[s + 1];
        if (low === high) continue;
        const length = this.#length[i];
        if (low < to && low + length > from && !this.#sweepLow(u, from, to)) return false;
        if (high < to && high + length > from && !this.#sweepHigh(u, from, to)) return false;
      }
    }
    while (this.#movedCount > 0) {
      const i = this.#moved[--this.#movedCount];
      this.#isMoved[i] = 0;
      for (let u = this.#useAt[i]; u < this.#useAt[i + 1]; u++) {
        if (this.#useVariable[u] >= 0 && !this.#lower(u, 0, this.#span)) return false;
        if (this.#height[u] === 0) continue;
        if (!this.#sweepLow(u, 0, this.#span) || !this.#sweepHigh(u, 0, this.#span)) return false;
      }
    }
    return true;
  }

  /** Why a side got a value, as things stood before entry `at`. @param info what the trail remembered */
  explain(side: number, value: number, info: number, at: number, out: Literals): void {
    const t = info % this.#span;
    const r = (info - t) / this.#span;
    const x = side >> 1;
    const u = this.#useOf[x];
    if (u >= 0) {
      const i = this.#usePiece[u];
      this.#coverLiterals(i, t, out);
      // The use may be `allowed` at most: one more and there were too much.
      const allowed = -value;
      this.#others(r, t, i, this.#limit[r] - allowed - 1, at, out);
      return;
    }
    const i = this.#pieceOf[x];
    let height = 0;
    for (let q = this.#useAt[i]; q < this.#useAt[i + 1]; q++) {
      if (this.#useResource[q] !== r) continue;
      const variable = this.#useVariable[q];
      height = variable < 0 ? this.#height[q] : this.#trail.boundBefore(2 * variable, at);
      if (variable >= 0) out.add(2 * variable, height);
    }
    if ((side & 1) === 0) out.add(side, t + 1 - this.#length[i]);
    else out.add(side, -t);
    this.#others(r, t, i, this.#limit[r] - height, at, out);
  }

  /** Why the last overload is one. */
  explainOverload(out: Literals): void {
    const t = this.#conflictAt % this.#span;
    const r = (this.#conflictAt - t) / this.#span;
    this.#others(r, t, -1, this.#limit[r], this.#trail.length, out);
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
    const on = this.#usesOn[r];
    let count = 0;
    let over = this.#taken[r][t] - limit - 1;
    for (let k = 0; k < on.length; k++) {
      const u = on[k];
      const i = this.#usePiece[u];
      if (i === not) continue;
      const s = 2 * this.#start[i];
      const low = t + 1 - this.#length[i];
      if (bound[s] < low || bound[s + 1] < -t) continue;
      const a = trail.entryOf(s, low);
      if (a >= at) continue;
      const b = trail.entryOf(s + 1, -t);
      if (b >= at) continue;
      const variable = this.#useVariable[u];
      const height = variable < 0 ? this.#height[u] : trail.boundBefore(2 * variable, at);
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
      this.#coverLiterals(this.#usePiece[u], t, out);
      const variable = this.#useVariable[u];
      if (variable < 0) continue;
      out.add(2 * variable, height - over);
      over = 0;
    }
  }

  /** Piece i runs in minute t. */
  #coverLiterals(i: number, t: number, out: Literals): void {
    const s = 2 * this.#start[i];
    out.add(s, t + 1 - this.#length[i]);
    out.add(s + 1, -t);
  }

  #shift(i: number): void {
    const { bound } = this.#trail;
    const s = 2 * this.#start[i];
    const from = -bound[s + 1];
    const to = bound[s] + this.#length[i];
    if (this.#isMoved[i] === 0) {
      this.#isMoved[i] = 1;
      this.#moved[this.#movedCount++] = i;
    }
    if (from >= to || (from === this.#from[i] && to === this.#to[i])) return;
    this.#note(i, this.#from[i], this.#to[i]);
    this.#span3(i, from, to);
  }

  /** Makes piece i surely run in [from, to) and nowhere else. */
  #span3(i: number, from: number, to: number): void {
    const a = this.#from[i];
    const b = this.#to[i];
    for (let u = this.#useAt[i]; u < this.#useAt[i + 1]; u++) {
      const h = this.#height[u];
      if (h === 0) continue;
      if (a >= b) this.#load(u, from, to, h);
      else if (from >= to) this.#load(u, a, b, -h);
      else {
        if (from < a) this.#load(u, from, a, h);
        else if (from > a) this.#load(u, a, from, -h);
        if (to > b) this.#load(u, b, to, h);
        else if (to < b) this.#load(u, to, b, -h);
      }
    }
    this.#from[i] = from;
    this.#to[i] = to;
  }

  #raise(u: number): void {
    const now = this.#trail.bound[2 * this.#useVariable[u]];
    const old = this.#height[u];
    if (now === old) return;
    const i = this.#usePiece[u];
    this.#note(-1 - u, old, 0);
    this.#load(u, this.#from[i], this.#to[i], now - old);
    this.#height[u] = now;
    if (this.#isMoved[i] !== 0) return;
    this.#isMoved[i] = 1;
    this.#moved[this.#movedCount++] = i;
  }

  #load(u: number, from: number, to: number, height: number): void {
    if (from >= to) return;
    const r = this.#useResource[u];
    const profile = this.#profile[r];
    for (let t = from; t < to; t++) profile[t] += height;
    if (height < 0) return;
    if (this.#dirtyTo[r] < 0) {
      this.#dirty[this.#dirtyCount++] = r;
      this.#dirtyFrom[r] = from;
      this.#dirtyTo[r] = to;
      return;
    }
    if (from < this.#dirtyFrom[r]) this.#dirtyFrom[r] = from;
    if (to > this.#dirtyTo[r]) this.#dirtyTo[r] = to;
  }

  #note(what: number, a: number, b: number): void {
    if (this.#undone + 3 > this.#undo.length) {
      const next = new Int32Array(2 * this.#undo.length);
      next.set(this.#undo);
      this.#undo = next;
    }
    this.#undo[this.#undone] = what;
    this.#undo[this.#undone + 1] = a;
    this.#undo[this.#undone + 2] = b;
    this.#undone += 3;
  }

  /** Raises the earliest start over minutes of [from, to) that have too little. */
  #sweepLow(u: number, from: number, to: number): boolean {
    const trail = this.#trail;
    const i = this.#usePiece[u];
    const r = this.#useResource[u];
    const profile = this.#profile[r];
    const most = this.#limit[r] - this.#height[u];
    const own = this.#from[i];
    const ownEnd = this.#to[i];
    const length = this.#length[i];
    const s = 2 * this.#start[i];
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
      if (!trail.set(s, t + 1, this.#name, r * this.#span + t)) return false;
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
    const i = this.#usePiece[u];
    const r = this.#useResource[u];
    const profile = this.#profile[r];
    const most = this.#limit[r] - this.#height[u];
    const own = this.#from[i];
    const ownEnd = this.#to[i];
    const length = this.#length[i];
    const s = 2 * this.#start[i] + 1;
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
      if (!trail.set(s, length - t, this.#name, r * this.#span + t)) return false;
      const seen = start;
      start = t - length;
      last = seen < t ? seen : t;
      t = start;
    }
    return true;
  }

  /** Lowers what a use may take to what others leave in the minutes of [from, to) in which its piece surely runs. */
  #lower(u: number, from: number, to: number): boolean {
    const i = this.#usePiece[u];
    const a = this.#from[i] > from ? this.#from[i] : from;
    const b = this.#to[i] < to ? this.#to[i] : to;
    if (a >= b) return true;
    const r = this.#useResource[u];
    const profile = this.#profile[r];
    let most = -1;
    let at = a;
    for (let t = a; t < b; t++) {
      if (profile[t] <= most) continue;
      most = profile[t];
      at = t;
    }
    const allowed = this.#limit[r] - most + this.#height[u];
    return this.#trail.set(2 * this.#useVariable[u] + 1, -allowed, this.#name, r * this.#span + at);
  }
}
