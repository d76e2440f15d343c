import { EVER } from '../calendar.js';
import { Kind } from '../model/kind.js';
import type { Model } from '../model/model.js';
import type { Minute } from '../problem.js';
import { LateLimits, NEVER_OPEN } from './late-limits.js';

/**
 * What lies open during a pass, and the look-ahead that keeps a way to close it.
 *
 * An element is open from its opener's start; until its closer is placed it counts as open for ever. Before an
 * opener is placed there must be an order of all that is still to be opened and shut in which every limit is kept
 * ("safe" in the sense of the banker's problem, Dijkstra 1965). One such order is always at hand and is replaced
 * whenever another opener goes first. Only openers and closers matter for it: all other tasks can go any time.
 *
 * Limits that come into force later are `LateLimits`: an opener may go past one at first; where that does not end
 * well, the pass is drawn again with the opener bound by it from the first.
 */
export class OpenElements {
  readonly #model: Model;
  readonly #open: Int32Array;
  readonly #shut: Int32Array;
  readonly #placed: Uint8Array;
  /** Openers and closers of elements that a limit may bind, and which of them must directly come before and after. */
  readonly #gatesAll: Int32Array;
  readonly #before: Int32Array[];
  readonly #after: Int32Array[];
  readonly #indexOf: Int32Array;
  /** A safe order to begin with, the one now in force, and room for the next; indices into `#gatesAll`. */
  #first: Int32Array | null = null;
  readonly #safe: Int32Array;
  readonly #next: Int32Array;
  readonly #waits: Int32Array;
  readonly #counts: Int32Array;
  readonly #limitsOf: number[][];
  readonly #late: LateLimits | null;
  /** A safe order in which no opener goes past a late limit, where there is one. */
  #strict: Int32Array | null = null;
  #head = 0;

  constructor(model: Model) {
    const { openings, n } = model;
    const elements = model.problem.elements.length;
    this.#model = model;
    this.#open = new Int32Array(elements);
    this.#shut = new Int32Array(elements);
    this.#placed = new Uint8Array(n);
    this.#counts = new Int32Array(openings.limits.length);
    this.#limitsOf = Array.from({ length: elements }, (_, e) =>
      openings.limits.flatMap((limit, l) => (limit.elements.includes(e) ? [l] : [])),
    );
    const gates = this.active
      ? model.order.filter((i) => openings.opens[i].length + openings.closes[i].length > 0)
      : [];
    this.#gatesAll = Int32Array.from(gates);
    const size = gates.length;
    this.#safe = new Int32Array(size);
    this.#next = new Int32Array(size);
    this.#waits = new Int32Array(size);
    this.#indexOf = new Int32Array(n).fill(-1);
    this.#gatesAll.forEach((i, g) => (this.#indexOf[i] = g));
    this.#before = nearest(model, this.#gatesAll, this.#indexOf);
    const after: number[][] = Array.from({ length: size }, () => []);
    this.#before.forEach((row, g) => {
      for (const b of row) after[b].push(g);
    });
    this.#after = after.map((row) => Int32Array.from(row));
    this.#late = openings.limits.some(({ from }) => from > EVER) ? new LateLimits(model) : null;
    this.reset();
    if (this.active) this.#first = this.#someOrder();
    if (this.#late !== null) {
      this.#late.bindAll();
      this.#strict = this.#someOrder();
      this.#late.begin();
    }
    this.reset();
  }

  /** To be called before the first drawing of each pass. */
  begin(): void {
    this.#late?.begin();
  }

  /** After a drawing: whether every late limit is kept. */
  get holds(): boolean {
    return this.#late === null || this.#late.holds(this.#open, this.#shut);
  }

  /** After a drawing that does not do: binds some opener that was not bound; false where there is none. */
  bindMore(): boolean {
    return this.#late !== null && this.#late.bindMore();
  }

  /** False where no limit can ever bind. */
  get active(): boolean {
    return this.#model.openings.limits.length > 0;
  }

  /** False when no order was found in which everything that must be opened can be. */
  get possible(): boolean {
    return !this.active || this.#first !== null;
  }

  reset(): void {
    if (!this.active) return;
    const { openings, kind, begun, ended, n } = this.#model;
    const { opener, closer } = openings;
    for (let e = 0; e < opener.length; e++) {
      const o = opener[e];
      const c = closer[e];
      // Without an opener it is open already, without a closer it stays open; without either it is no matter.
      this.#open[e] = o < 0 ? (c < 0 ? NEVER_OPEN : EVER) : begun[o] > EVER ? begun[o] : NEVER_OPEN;
      this.#shut[e] = c >= 0 && kind[c] === Kind.Done ? ended[c] : STILL;
    }
    for (let i = 0; i < n; i++) this.#placed[i] = kind[i] === Kind.Done ? 1 : 0;
    if (this.#first !== null)
      this.#safe.set((this.#late?.anyBound === true ? this.#strict : null) ?? this.#first);
    this.#late?.again();
    this.#head = 0;
  }

  opensAny(i: number): boolean {
    return this.#model.openings.opens[i].length > 0 && this.#model.begun[i] === EVER;
  }

  /** May task i, all tasks before it being placed and none of its links asking it to wait beyond t, be the next opener? */
  mayOpen(i: number, t: Minute): boolean {
    this.#late?.ask(i, t);
    this.#count();
    if (!this.#fits(i)) return false;
    const size = this.#safe.length;
    for (; this.#head < size; this.#head++) {
      const task = this.#gatesAll[this.#safe[this.#head]];
      if (this.#placed[task] === 0 && this.opensAny(task)) break;
    }
    const g = this.#indexOf[i];
    if (this.#head < size && this.#safe[this.#head] === g) return true;
    if (!this.#order(g, this.#safe)) return false;
    this.#safe.set(this.#next);
    this.#head = 0;
    return true;
  }

  /** Earliest start, t at least, from which on opening what i opens passes no limit. */
  from(i: number, t: Minute): Minute {
    const { opens, limits } = this.#model.openings;
    let from = t;
    for (let l = 0; l < limits.length; l++) {
      const { elements, atMost } = limits[l];
      let own = 0;
      for (const e of opens[i]) if (elements.includes(e)) own++;
      if (own === 0 || this.#late?.spares(l, i) === true) continue;
      // Too many are open at the last minute before some element is shut: the start waits for that.
      for (const e of elements) {
        const shut = this.#shut[e];
        if (this.#open[e] === NEVER_OPEN || shut === STILL || shut <= from) continue;
        let open = own;
        for (const other of elements) {
          if (opens[i].includes(other) || this.#open[other] === NEVER_OPEN || this.#shutsAtOnce(i, other))
            continue;
          if (this.#open[other] < shut && this.#shut[other] >= shut) open++;
        }
        if (open > atMost) {
          from = shut;
        }
      }
    }
    return from;
  }

  place(i: number, start: Minute, end: Minute): void {
    const { opens, closes } = this.#model.openings;
    this.#placed[i] = 1;
    if (this.#model.begun[i] === EVER) for (const e of opens[i]) this.#open[e] = start;
    this.#late?.placed(i);
    for (const e of closes[i]) this.#shut[e] = end;
  }

  /** Some order that keeps every limit: as the tasks stand, then with openers tried in other orders. */
  #someOrder(): Int32Array | null {
    const size = this.#safe.length;
    const guide = Int32Array.from({ length: size }, (_, g) => g);
    let state = 0x9e3779b9;
    for (let trial = 0; trial < TRIALS; trial++) {
      if (this.#order(-1, guide)) return this.#next.slice();
      for (let k = size - 1; k > 0; k--) {
        state = (Math.imul(state, 1664525) + 1013904223) | 0;
        const q = (state >>> 8) % (k + 1);
        [guide[k], guide[q]] = [guide[q], guide[k]];
      }
    }
    return null;
  }

  /** Fills `#next` with an order of all that is still to come, `head` first, openers as in `guide` where they fit. */
  #order(head: number, guide: Int32Array): boolean {
    const gates = this.#gatesAll;
    const placed = this.#placed;
    const waits = this.#waits;
    const next = this.#next;
    const size = gates.length;
    this.#count();
    let left = 0;
    let filled = 0;
    const free: number[] = [];
    for (let g = 0; g < size; g++) {
      if (placed[gates[g]] !== 0) {
        waits[g] = -1;
        continue;
      }
      left++;
      waits[g] = 0;
      for (const b of this.#before[g]) if (placed[gates[b]] === 0) waits[g]++;
      if (waits[g] === 0 && !this.opensAny(gates[g])) free.push(g);
    }
    const go = (g: number): void => {
      next[filled++] = g;
      waits[g] = -1;
      this.#pass(gates[g]);
      for (const a of this.#after[g]) if (--waits[a] === 0 && !this.opensAny(gates[a])) free.push(a);
    };
    if (head >= 0) {
      if (!this.#fits(gates[head])) return false;
      go(head);
    }
    for (let from = 0; ;) {
      for (let g = free.pop(); g !== undefined; g = free.pop()) go(g);
      if (filled === left) break;
      while (from < size && waits[guide[from]] < 0) from++;
      let k = from;
      while (k < size && !(waits[guide[k]] === 0 && this.#fits(gates[guide[k]]))) k++;
      if (k === size) return false;
      go(guide[k]);
    }
    // What is placed already stands at the back, where it is passed over.
    for (let g = 0; g < size; g++) if (placed[gates[g]] !== 0) next[filled++] = g;
    return true;
  }

  /** Counts what task i opens and shuts. */
  #pass(i: number): void {
    const { opens, closes } = this.#model.openings;
    if (this.opensAny(i)) for (const e of opens[i]) for (const l of this.#limitsOf[e]) this.#counts[l]++;
    for (const e of closes[i]) for (const l of this.#limitsOf[e]) this.#counts[l]--;
  }

  /** How many elements of each limit are open without an end. */
  #count(): void {
    this.#counts.fill(0);
    for (let e = 0; e < this.#open.length; e++) {
      if (this.#open[e] === NEVER_OPEN || this.#shut[e] !== STILL) continue;
      for (const l of this.#limitsOf[e]) this.#counts[l]++;
    }
  }

  #fits(i: number): boolean {
    const { opens, limits } = this.#model.openings;
    for (let l = 0; l < limits.length; l++) {
      const { elements, atMost } = limits[l];
      let more = 0;
      for (const e of opens[i]) if (elements.includes(e)) more++;
      if (more === 0 || this.#late?.spares(l, i) === true) continue;
      for (const e of elements) if (this.#shutsAtOnce(i, e)) more--;
      if (this.#counts[l] + more > atMost) return false;
    }
    return true;
  }

  /** What opens and shuts in no time has shut the one before the other is open. */
  #shutsAtOnce(i: number, e: number): boolean {
    const { kind, openings } = this.#model;
    if (openings.closer[e] !== i || openings.opener[e] === i) return false;
    return kind[i] === Kind.Mark || kind[i] === Kind.SaySo;
  }
}

const STILL = 0x3ffffffe;
/** How many orders of openers are tried at random before it is said that there is none. */
const TRIALS = 400;

/** For each gate the gates that must come before it with none between them. Sets as bits over the gates. */
function nearest({ n, order, inLinks }: Model, gates: Int32Array, indexOf: Int32Array): Int32Array[] {
  const words = Math.ceil(gates.length / 32);
  if (words === 0) return [];
  const before = new Int32Array(n * words);
  for (let k = 0; k < n; k++) {
    const i = order[k];
    for (let q = inLinks.at[i]; q < inLinks.at[i + 1]; q++) {
      const p = inLinks.task[q];
      for (let w = 0; w < words; w++) before[i * words + w] |= before[p * words + w];
      const g = indexOf[p];
      if (g >= 0) before[i * words + (g >> 5)] |= 1 << (g & 31);
    }
  }
  return Array.from(gates, (i) => {
    const far = new Int32Array(words);
    const all: number[] = [];
    for (let g = 0; g < gates.length; g++) {
      if ((before[i * words + (g >> 5)] & (1 << (g & 31))) === 0) continue;
      all.push(g);
      for (let w = 0; w < words; w++) far[w] |= before[gates[g] * words + w];
    }
    return Int32Array.from(all.filter((g) => (far[g >> 5] & (1 << (g & 31))) === 0));
  });
}
