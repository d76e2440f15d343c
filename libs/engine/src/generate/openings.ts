import { EVER } from '../calendar.js';
import { Kind, type Model } from '../model/model.js';
import type { Minute } from '../problem.js';

/**
 * What lies open during a pass, and the look-ahead that keeps a way to close it.
 *
 * An element is open from its opener's start; until its closer is placed it counts as open for ever. Before an
 * opener is placed there must be an order of all tasks still to come in which every limit is kept ("safe" in the
 * sense of the banker's problem, Dijkstra 1965). One such order is always at hand: it starts as `Safe.first` and is
 * replaced whenever another opener goes first. Tasks that open nothing may always go earlier than it says.
 */
export class OpenElements {
  readonly #model: Model;
  readonly #open: Int32Array;
  readonly #shut: Int32Array;
  readonly #placed: Uint8Array;
  readonly #first: Int32Array | null = null;
  readonly #safe: Int32Array;
  readonly #next: Int32Array;
  readonly #waits: Int32Array;
  readonly #counts: Int32Array;
  readonly #limitsOf: number[][];
  #head = 0;
  /** Of the last `from`: limit that set the minute, or -1, and the element whose closing it waited for. */
  heldLimit = -1;
  heldElement = -1;

  constructor(model: Model) {
    const { n } = model;
    const elements = model.problem.elements.length;
    this.#model = model;
    this.#open = new Int32Array(elements);
    this.#shut = new Int32Array(elements);
    this.#placed = new Uint8Array(n);
    this.#safe = new Int32Array(n);
    this.#next = new Int32Array(n);
    this.#waits = new Int32Array(n);
    this.#counts = new Int32Array(model.openings.limits.length);
    this.#limitsOf = Array.from({ length: elements }, (_, e) =>
      model.openings.limits.flatMap((limit, l) => (limit.elements.includes(e) ? [l] : [])),
    );
    this.reset();
    if (this.active) this.#first = this.#someOrder();
    this.reset();
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
    if (this.#first !== null) this.#safe.set(this.#first);
    this.#head = 0;
  }

  opensAny(i: number): boolean {
    return this.#model.openings.opens[i].length > 0 && this.#model.begun[i] === EVER;
  }

  /** May task i, all tasks before it being placed, be the next opener? */
  mayOpen(i: number): boolean {
    const { n } = this.#model;
    this.#count();
    if (!this.#fits(i)) return false;
    while (
      this.#head < n &&
      (this.#placed[this.#safe[this.#head]] || !this.opensAny(this.#safe[this.#head]))
    ) {
      this.#head++;
    }
    if (this.#head < n && this.#safe[this.#head] === i) return true;
    if (!this.#order(i, this.#safe)) return false;
    this.#safe.set(this.#next);
    this.#head = 0;
    return true;
  }

  /** Earliest start, t at least, from which on opening what i opens passes no limit. */
  from(i: number, t: Minute): Minute {
    const { opens, limits } = this.#model.openings;
    this.heldLimit = -1;
    let from = t;
    for (let l = 0; l < limits.length; l++) {
      const { elements, atMost } = limits[l];
      let own = 0;
      for (const e of opens[i]) if (elements.includes(e)) own++;
      if (own === 0) continue;
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
          this.heldLimit = l;
          this.heldElement = e;
        }
      }
    }
    return from;
  }

  place(i: number, start: Minute, end: Minute): void {
    const { opens, closes } = this.#model.openings;
    this.#placed[i] = 1;
    if (this.#model.begun[i] === EVER) for (const e of opens[i]) this.#open[e] = start;
    for (const e of closes[i]) this.#shut[e] = end;
  }

  /** Some order that keeps every limit: greedy first, then with openers tried in other orders. */
  #someOrder(): Int32Array | null {
    const { n, order } = this.#model;
    const guide = Int32Array.from(order);
    let state = 0x9e3779b9;
    for (let trial = 0; trial < 400; trial++) {
      if (this.#order(-1, guide)) return this.#next.slice();
      for (let k = n - 1; k > 0; k--) {
        state = (Math.imul(state, 1664525) + 1013904223) | 0;
        const q = (state >>> 8) % (k + 1);
        [guide[k], guide[q]] = [guide[q], guide[k]];
      }
    }
    return null;
  }

  /** Fills `#next` with an order of all tasks still to come, `head` first, openers as in `guide` where they fit. */
  #order(head: number, guide: Int32Array): boolean {
    const { n, inLinks, outLinks, openings } = this.#model;
    const placed = this.#placed;
    const waits = this.#waits;
    const counts = this.#counts;
    this.#count();
    let left = 0;
    for (let i = 0; i < n; i++) {
      if (placed[i]) continue;
      left++;
      waits[i] = 0;
      for (let k = inLinks.at[i]; k < inLinks.at[i + 1]; k++) if (!placed[inLinks.task[k]]) waits[i]++;
    }
    const next = this.#next;
    let filled = 0;
    const free: number[] = [];
    const openers = new Set<number>();
    const go = (i: number): void => {
      next[filled++] = i;
      if (this.opensAny(i)) for (const e of openings.opens[i]) for (const l of this.#limitsOf[e]) counts[l]++;
      for (const e of openings.closes[i]) for (const l of this.#limitsOf[e]) counts[l]--;
      for (let k = outLinks.at[i]; k < outLinks.at[i + 1]; k++) {
        const j = outLinks.task[k];
        if (!placed[j] && --waits[j] === 0) {
          if (this.opensAny(j)) openers.add(j);
          else free.push(j);
        }
      }
    };
    for (let i = 0; i < n; i++) {
      if (placed[i] || waits[i] > 0) continue;
      if (this.opensAny(i)) openers.add(i);
      else free.push(i);
    }
    if (head >= 0) {
      if (!this.#fits(head)) return false;
      openers.delete(head);
      go(head);
    }
    for (;;) {
      for (let i = free.pop(); i !== undefined; i = free.pop()) go(i);
      if (filled === left) break;
      let chosen = -1;
      for (let k = 0; k < n && chosen < 0; k++) {
        const i = guide[k];
        if (openers.has(i) && this.#fits(i)) chosen = i;
      }
      if (chosen < 0) return false;
      openers.delete(chosen);
      go(chosen);
    }
    // What is placed already stands at the back, where it is passed over.
    for (let i = 0; i < n; i++) if (placed[i]) next[filled++] = i;
    return true;
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
      if (more === 0) continue;
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

const NEVER_OPEN = 0x3fffffff;
const STILL = 0x3ffffffe;
