import { Why, type Kernel } from './kernel.js';
import { Literals } from './trail.js';

/**
 * Learns from a conflict: goes back over the reasons until one single rise of the last level is left that is to blame
 * (first unique implication point: Marques-Silva and Sakallah 1999, from memory). A rise is blamed only as far as was
 * needed, so that what is learned holds for as many cases as can be.
 */
export class Learner {
  /** What was learned: at least one of these holds. The first is the one to set, the second the last to be false. */
  readonly clause = new Literals();
  /** The level at which the first literal follows. */
  backTo = 0;
  /** Levels among the literals. */
  blocks = 0;

  readonly #kernel: Kernel;
  readonly #bump: (side: number, value: number) => void;
  readonly #why = new Literals();
  #blamed = new Uint8Array(1024);
  /** By entry, how far it is blamed. */
  #needed = new Int32Array(1024);
  /** Entries blamed below the last level. */
  #lower = new Int32Array(1024);
  #lowerCount = 0;
  #kept = new Int32Array(1024);
  #open = 0;
  #levelFrom = 0;
  #firstFrom = 0;
  /** By side, the greatest value among the literals kept, to leave out what another says already. */
  readonly #greatest: Int32Array;
  readonly #stamp: Int32Array;
  #levelSeen = new Int32Array(1024);
  #time = 0;

  /** @param bump told every literal that had a part in the conflict */
  constructor(kernel: Kernel, bump: (side: number, value: number) => void) {
    this.#kernel = kernel;
    this.#bump = bump;
    const sides = kernel.trail.bound.length;
    this.#greatest = new Int32Array(sides);
    this.#stamp = new Int32Array(sides);
  }

  /** Fills `clause` from the kernel's conflict; false when it needs no decision at all: the rules can't be kept. */
  fromConflict(): boolean {
    const kernel = this.#kernel;
    const { trail } = kernel;
    const why = this.#why;
    kernel.explainConflict(why);
    if (trail.failed.reason >= 0 && trail.failed.side >= 0) kernel.clauses.bump(trail.failed.reason);
    this.#makeRoom();
    // A conflict may be seen later than it came about.
    let last = -1;
    for (let q = 0; q < why.count; q++)
      last = Math.max(last, trail.entryOf(why.at[2 * q], why.at[2 * q + 1]));
    const level = last < 0 ? 0 : trail.levelOf(last);
    if (level === 0) return false;
    this.#levelFrom = trail.levelAt(level);
    this.#firstFrom = trail.levelAt(1);
    this.#lowerCount = 0;
    this.#open = 0;
    this.#blameAll();
    let k = last;
    for (;;) {
      while (this.#blamed[k] === 0) k--;
      if (this.#open === 1) break;
      this.#blamed[k] = 0;
      this.#open--;
      if (trail.reason[k] >= 0) kernel.clauses.bump(trail.reason[k]);
      kernel.explainEntry(k, this.#needed[k], why);
      this.#blameAll();
      k--;
    }
    this.#write(k);
    return true;
  }

  #blameAll(): void {
    const { trail } = this.#kernel;
    const { at, count } = this.#why;
    for (let q = 0; q < count; q++) {
      const side = at[2 * q];
      const value = at[2 * q + 1];
      const k = trail.entryOf(side, value);
      if (k < this.#firstFrom) continue;
      this.#bump(side, value);
      if (this.#blamed[k] !== 0) {
        if (value > this.#needed[k]) this.#needed[k] = value;
        continue;
      }
      this.#blamed[k] = 1;
      this.#needed[k] = value;
      if (k >= this.#levelFrom) this.#open++;
      else this.#lower[this.#lowerCount++] = k;
    }
  }

  /** Leaves out what the others say already and writes the rest down. */
  #write(first: number): void {
    const { trail } = this.#kernel;
    const { clause } = this;
    const lower = this.#lower;
    const kept = this.#kept;
    const needed = this.#needed;
    const time = ++this.#time;
    let count = 0;
    for (let q = 0; q < this.#lowerCount; q++) {
      const k = lower[q];
      if (this.#follows(k)) continue;
      kept[count++] = k;
      const side = trail.side[k];
      if (this.#stamp[side] === time && this.#greatest[side] >= needed[k]) continue;
      this.#stamp[side] = time;
      this.#greatest[side] = needed[k];
    }
    const firstSide = trail.side[first];
    clause.clear();
    clause.add(firstSide ^ 1, 1 - needed[first]);
    let second = -1;
    this.blocks = 1;
    for (let q = 0; q < count; q++) {
      const k = kept[q];
      const side = trail.side[k];
      if (side === firstSide || needed[k] < this.#greatest[side]) continue;
      const level = trail.levelOf(k);
      if (this.#levelSeen[level] !== time) {
        this.#levelSeen[level] = time;
        this.blocks++;
      }
      clause.add(side ^ 1, 1 - needed[k]);
      if (k < second) continue;
      second = k;
      const { at } = clause;
      const end = 2 * clause.count - 2;
      for (const z of [0, 1]) [at[2 + z], at[end + z]] = [at[end + z], at[2 + z]];
    }
    this.backTo = second < 0 ? 0 : trail.levelOf(second);
    this.#blamed[first] = 0;
    for (let q = 0; q < this.#lowerCount; q++) this.#blamed[lower[q]] = 0;
  }

  /** Whether what is blamed besides makes entry k follow. */
  #follows(k: number): boolean {
    const { trail } = this.#kernel;
    if (trail.reason[k] === Why.Decided) return false;
    const why = this.#why;
    this.#kernel.explainEntry(k, this.#needed[k], why);
    const { at, count } = why;
    for (let q = 0; q < count; q++) {
      const value = at[2 * q + 1];
      const e = trail.entryOf(at[2 * q], value);
      if (e >= this.#firstFrom && (this.#blamed[e] === 0 || this.#needed[e] < value)) return false;
    }
    return true;
  }

  #makeRoom(): void {
    const size = this.#kernel.trail.length + 2;
    if (size <= this.#blamed.length) return;
    this.#blamed = new Uint8Array(2 * size);
    this.#needed = new Int32Array(2 * size);
    this.#lower = new Int32Array(2 * size);
    this.#kept = new Int32Array(2 * size);
    this.#levelSeen = new Int32Array(2 * size);
  }
}
