import { type Literals, type Trail } from './trail.js';

/**
 * Learned clauses, each a set of literals of which one at least must hold, in one flat array:
 *
 *     [count, level blocks, activity slot, side, value, side, value, ...]
 *
 * Each clause is watched through its first two literals. A watched literal stands in the list of the side that makes it
 * false, with the bound from which on it is false, so that a rise looks only at the clauses whose bound it passes.
 */
export class Clauses {
  /** Clauses held. */
  count = 0;
  /** Integers that `#arena` may grow to. */
  readonly #mostRoom: number;
  readonly #trail: Trail;
  #arena = new Int32Array(1 << 16);
  #end = 0;
  #refs: number[] = [];
  #activity = new Float64Array(1024);
  #step = 1;
  readonly #watches: Int32Array[];
  readonly #watched: Int32Array;
  /** The clause that was found false. */
  conflict = -1;

  constructor(trail: Trail, mostRoom: number) {
    this.#trail = trail;
    this.#mostRoom = mostRoom;
    const sides = trail.bound.length;
    this.#watches = Array.from({ length: sides }, () => new Int32Array(4 * WATCH));
    this.#watched = new Int32Array(sides);
  }

  /** True when the arena is as large as it may get: clauses have to be thrown out. */
  get isFull(): boolean {
    return this.#end > this.#mostRoom;
  }

  /**
   * Adds a clause of two literals or more; the first is the one that will be set, the second the last to become false.
   * @returns what the trail knows it by
   */
  add(literals: Literals, blocks: number): number {
    const { count, at } = literals;
    const ref = this.#end;
    const size = HEAD + 2 * count;
    if (ref + size > this.#arena.length) {
      const next = new Int32Array(Math.max(2 * this.#arena.length, ref + size));
      next.set(this.#arena);
      this.#arena = next;
    }
    const slot = this.#refs.length;
    if (slot === this.#activity.length) {
      const next = new Float64Array(2 * slot);
      next.set(this.#activity);
      this.#activity = next;
    }
    this.#activity[slot] = this.#step;
    this.#arena[ref] = count;
    this.#arena[ref + 1] = blocks;
    this.#arena[ref + 2] = slot;
    for (let k = 0; k < 2 * count; k++) this.#arena[ref + HEAD + k] = at[k];
    this.#end += size;
    this.#refs.push(ref);
    this.count++;
    this.#watch(ref, 0);
    this.#watch(ref, 1);
    return ref;
  }

  /** Looks at every clause that a rise of a side passes; false, with `conflict` set, where one is false. */
  propagate(side: number, old: number, now: number): boolean {
    const trail = this.#trail;
    const { bound } = trail;
    const list = this.#watches[side];
    const size = 4 * this.#watched[side];
    const arena = this.#arena;
    let kept = 0;
    let k = 0;
    let sound = true;
    for (; k < size; k += 4) {
      const from = list[k + 1];
      if (from > now || from <= old || bound[list[k + 2]] >= list[k + 3]) {
        if (kept !== k) {
          list[kept] = list[k];
          list[kept + 1] = from;
          list[kept + 2] = list[k + 2];
          list[kept + 3] = list[k + 3];
        }
        kept += 4;
        continue;
      }
      const ref = list[k];
      const base = ref + HEAD;
      const falseSide = side ^ 1;
      const falseValue = 1 - from;
      let firstSide = arena[base];
      let firstValue = arena[base + 1];
      if (firstSide === falseSide && firstValue === falseValue) {
        firstSide = arena[base + 2];
        firstValue = arena[base + 3];
        arena[base] = firstSide;
        arena[base + 1] = firstValue;
        arena[base + 2] = falseSide;
        arena[base + 3] = falseValue;
      }
      list[kept] = ref;
      list[kept + 1] = from;
      list[kept + 2] = firstSide;
      list[kept + 3] = firstValue;
      kept += 4;
      if (bound[firstSide] >= firstValue) continue;
      const end = base + 2 * arena[ref];
      let q = base + 4;
      while (q < end && bound[arena[q] ^ 1] >= 1 - arena[q + 1]) q += 2;
      if (q < end) {
        kept -= 4;
        arena[base + 2] = arena[q];
        arena[base + 3] = arena[q + 1];
        arena[q] = falseSide;
        arena[q + 1] = falseValue;
        this.#watch(ref, 1);
        continue;
      }
      if (!trail.set(firstSide, firstValue, ref, 0)) {
        this.conflict = ref;
        sound = false;
        k += 4;
        break;
      }
    }
    if (kept !== k) {
      list.copyWithin(kept, k, size);
      this.#watched[side] = (kept + size - k) >> 2;
    }
    return sound;
  }

  /** The contraries of all literals but the first: why the first one was set. */
  explain(ref: number, out: Literals): void {
    const arena = this.#arena;
    const end = ref + HEAD + 2 * arena[ref];
    for (let q = ref + HEAD + 2; q < end; q += 2) out.add(arena[q] ^ 1, 1 - arena[q + 1]);
  }

  /** Makes a clause count for more when clauses are thrown out: it took part in a conflict. */
  bump(ref: number): void {
    const slot = this.#arena[ref + 2];
    this.#activity[slot] += this.#step;
    if (this.#activity[slot] < 1e100) return;
    for (let k = 0; k < this.#refs.length; k++) this.#activity[k] *= 1e-100;
    this.#step *= 1e-100;
  }

  decay(): void {
    this.#step /= 0.999;
  }

  /** Throws out the less active half of the long ones. Only at level 0, where no clause is a reason any more. */
  reduce(): void {
    const arena = this.#arena;
    const activity = this.#activity;
    const loose = this.#refs.filter((ref) => arena[ref + 1] > KEPT_BLOCKS && arena[ref] > 2);
    loose.sort((a, b) => activity[arena[a + 2]] - activity[arena[b + 2]] || a - b);
    const out = new Set(loose.slice(0, loose.length >> 1));
    if (this.isFull) for (const ref of this.#refs.slice(0, this.#refs.length >> 1)) out.add(ref);
    const { bound } = this.#trail;
    const kept = this.#refs.filter((ref) => {
      if (out.has(ref)) return false;
      const end = ref + HEAD + 2 * arena[ref];
      for (let q = ref + HEAD; q < end; q += 2) if (bound[arena[q]] >= arena[q + 1]) return false;
      return true;
    });
    const activities = kept.map((ref) => activity[arena[ref + 2]]);
    let end = 0;
    this.#refs = kept.map((ref, slot) => {
      const size = HEAD + 2 * arena[ref];
      arena.copyWithin(end, ref, ref + size);
      arena[end + 2] = slot;
      activity[slot] = activities[slot];
      end += size;
      return end - size;
    });
    this.#end = end;
    this.count = this.#refs.length;
    this.#watched.fill(0);
    for (const ref of this.#refs) {
      this.#openFirst(ref);
      this.#watch(ref, 0);
      this.#watch(ref, 1);
    }
  }

  /** Two literals that are not false, if there are such, to the front. */
  #openFirst(ref: number): void {
    const arena = this.#arena;
    const { bound } = this.#trail;
    const base = ref + HEAD;
    const end = base + 2 * arena[ref];
    let put = base;
    for (let q = base; q < end && put < base + 4; q += 2) {
      if (bound[arena[q] ^ 1] >= 1 - arena[q + 1]) continue;
      for (const k of [0, 1]) [arena[put + k], arena[q + k]] = [arena[q + k], arena[put + k]];
      put += 2;
    }
  }

  #watch(ref: number, which: 0 | 1): void {
    const arena = this.#arena;
    const base = ref + HEAD;
    const side = arena[base + 2 * which] ^ 1;
    const other = base + 2 - 2 * which;
    const n = 4 * this.#watched[side];
    let list = this.#watches[side];
    if (n === list.length) {
      list = new Int32Array(2 * n);
      list.set(this.#watches[side]);
      this.#watches[side] = list;
    }
    list[n] = ref;
    list[n + 1] = 1 - arena[base + 2 * which + 1];
    list[n + 2] = arena[other];
    list[n + 3] = arena[other + 1];
    this.#watched[side]++;
  }
}

const HEAD = 3;
/** Watches a side has room for at first. */
const WATCH = 4;
/** Clauses over so few levels are never thrown out (glue: Audemard and Simon 2009, from memory). */
const KEPT_BLOCKS = 2;
