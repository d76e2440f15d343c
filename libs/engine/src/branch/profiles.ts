import type { Trail } from './trail.js';

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
 * What surely runs, minute by minute: a piece that must start by minute b and can't end before minute e runs in [b, e),
 * whatever else is decided. All of it is added up in one profile a resource, and taken back with the trail.
 *
 *     earliest   ____|=======|
 *     latest     ________|=======|
 *     surely             |===|
 */
export class Profiles {
  readonly #trail: Trail;
  readonly span: number;
  readonly limit: Int32Array;
  readonly taken: ArrayLike<number>[];
  readonly profile: Int32Array[];

  /** Piece whose start a variable is, and use whose height, or -1. */
  readonly pieceOf: Int32Array;
  readonly useOf: Int32Array;
  readonly start: Int32Array;
  readonly length: Int32Array;
  /** Where each piece surely runs, as the profile has it. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Uses of each piece, as rows; and of each resource, greatest first. */
  readonly useAt: Int32Array;
  readonly usesOn: Int32Array[];
  readonly usePiece: Int32Array;
  readonly useResource: Int32Array;
  readonly useVariable: Int32Array;
  readonly most: Int32Array;
  /** What each use surely takes, as the profile has it. */
  readonly height: Int32Array;

  /** What to take back: a piece and its span, or -1 less a use and its height. */
  #undo = new Int32Array(3 * 256);
  #undone = 0;
  readonly #undoAt: number[] = [0];

  /** Resources whose profile rose, and between which minutes. */
  readonly dirty: Int32Array;
  dirtyCount = 0;
  readonly dirtyFrom: Int32Array;
  readonly dirtyTo: Int32Array;
  readonly moved: Int32Array;
  movedCount = 0;
  readonly isMoved: Uint8Array;

  /** @param span minutes, all pieces end by then */
  constructor(trail: Trail, pieces: Piece[], resources: Resource[], span: number) {
    this.#trail = trail;
    this.span = span;
    const variables = trail.bound.length >> 1;
    this.limit = Int32Array.from(resources, (resource) => resource.limit);
    this.taken = resources.map((resource) => resource.taken);
    this.profile = resources.map((resource) =>
      Int32Array.from({ length: span }, (_, t) => resource.taken[t]),
    );
    this.pieceOf = new Int32Array(variables).fill(-1);
    this.useOf = new Int32Array(variables).fill(-1);
    this.start = Int32Array.from(pieces, (piece) => piece.start);
    this.length = Int32Array.from(pieces, (piece) => piece.length);
    this.from = new Int32Array(pieces.length);
    this.to = new Int32Array(pieces.length);
    this.useAt = new Int32Array(pieces.length + 1);
    const uses = pieces.flatMap((piece, i) => {
      this.pieceOf[piece.start] = i;
      this.useAt[i + 1] = this.useAt[i] + piece.uses.length;
      return piece.uses.map((use) => ({ ...use, piece: i }));
    });
    this.usePiece = Int32Array.from(uses, (use) => use.piece);
    this.useResource = Int32Array.from(uses, (use) => use.resource);
    this.useVariable = Int32Array.from(uses, (use) => use.variable ?? -1);
    this.height = Int32Array.from(uses, (use) => (use.variable === undefined ? use.height : 0));
    this.most = Int32Array.from(uses, (use) => use.height);
    uses.forEach(({ variable }, u) => {
      if (variable !== undefined) this.useOf[variable] = u;
    });
    this.usesOn = resources.map((_, r) =>
      Int32Array.from(
        uses
          .flatMap((use, u) => (use.resource === r ? [u] : []))
          .sort((a, b) => uses[b].height - uses[a].height),
      ),
    );
    this.dirty = new Int32Array(resources.length);
    this.dirtyFrom = new Int32Array(resources.length);
    this.dirtyTo = new Int32Array(resources.length).fill(-1);
    this.moved = new Int32Array(pieces.length);
    this.isMoved = new Uint8Array(pieces.length);
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
    const i = this.pieceOf[x];
    if (i >= 0) this.#shift(i);
    const u = this.useOf[x];
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
        this.#run(what, undo[k + 1], undo[k + 2]);
      } else {
        const u = -1 - what;
        const i = this.usePiece[u];
        this.#load(u, this.from[i], this.to[i], undo[k + 1] - this.height[u]);
        this.height[u] = undo[k + 1];
      }
    }
    this.#undone = first;
    this.forget();
  }

  /** Forgets what was noted and not looked at yet. */
  forget(): void {
    for (let k = 0; k < this.dirtyCount; k++) this.dirtyTo[this.dirty[k]] = -1;
    this.dirtyCount = 0;
    for (let k = 0; k < this.movedCount; k++) this.isMoved[this.moved[k]] = 0;
    this.movedCount = 0;
  }

  #shift(i: number): void {
    const { bound } = this.#trail;
    const s = 2 * this.start[i];
    const from = -bound[s + 1];
    const to = bound[s] + this.length[i];
    if (this.isMoved[i] === 0) {
      this.isMoved[i] = 1;
      this.moved[this.movedCount++] = i;
    }
    if (from >= to || (from === this.from[i] && to === this.to[i])) return;
    this.#note(i, this.from[i], this.to[i]);
    this.#run(i, from, to);
  }

  /** Makes piece i surely run in [from, to) and nowhere else. */
  #run(i: number, from: number, to: number): void {
    const a = this.from[i];
    const b = this.to[i];
    for (let u = this.useAt[i]; u < this.useAt[i + 1]; u++) {
      const h = this.height[u];
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
    this.from[i] = from;
    this.to[i] = to;
  }

  #raise(u: number): void {
    const now = this.#trail.bound[2 * this.useVariable[u]];
    const old = this.height[u];
    if (now === old) return;
    const i = this.usePiece[u];
    this.#note(-1 - u, old, 0);
    this.#load(u, this.from[i], this.to[i], now - old);
    this.height[u] = now;
    if (this.isMoved[i] !== 0) return;
    this.isMoved[i] = 1;
    this.moved[this.movedCount++] = i;
  }

  #load(u: number, from: number, to: number, height: number): void {
    if (from >= to) return;
    const r = this.useResource[u];
    const profile = this.profile[r];
    for (let t = from; t < to; t++) profile[t] += height;
    if (height < 0) return;
    if (this.dirtyTo[r] < 0) {
      this.dirty[this.dirtyCount++] = r;
      this.dirtyFrom[r] = from;
      this.dirtyTo[r] = to;
      return;
    }
    if (from < this.dirtyFrom[r]) this.dirtyFrom[r] = from;
    if (to > this.dirtyTo[r]) this.dirtyTo[r] = to;
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
}
