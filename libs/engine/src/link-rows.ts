import type { Link, Problem } from './problem.js';

/** Nothing is shut before it is opened: the closer of an element ends no earlier than its opener starts. */
export function openingTies(problem: Problem): Link[] {
  const closer = new Map<number, number>();
  problem.tasks.forEach((task, i) => {
    for (const e of task.closes) closer.set(e, i);
  });
  const ties: Link[] = [];
  problem.tasks.forEach((task, before) => {
    for (const e of task.opens) {
      const after = closer.get(e);
      if (after === undefined || after === before) continue;
      ties.push({ before, after, relation: 'start-to-finish', lag: 0, lagKind: 'elapsed' });
    }
  });
  return ties;
}

/** Bits of a link's kind: its relation starts from a finish, ends at a finish; its lag counts working minutes. */
export const FROM_FINISH = 1;
export const TO_FINISH = 2;
export const WORKING = 4;

/** What a task waits for: nothing more once it is done, only what bounds its end once it has begun. */
export const BEGUN = 1;
export const DONE = 2;

/** The rows of links into each task or out of each: row i from `first[i]` up to `first[i + 1]`. */
interface Rows {
  first: Int32Array;
  /** The task at the other end. */
  other: Int32Array;
  kind: Uint8Array;
  lag: Int32Array;
}

/**
 * The links in rows, by the task they end at and by the one they start at; after those of the problem the ties between
 * openers and closers. Links into what has begun are left out. Each row holds all that a sweep asks of its links side by
 * side, since a sweep takes as long as memory does.
 */
export class LinkRows {
  readonly into: Rows;
  readonly out: Rows;
  /** Beside each place in `into`: the link's number. */
  readonly number: Int32Array;
  readonly #given: Link[];
  readonly #ties: Link[];

  /** @param state by task: 0 (waiting), BEGUN or DONE */
  constructor(problem: Problem, state: Uint8Array) {
    const n = problem.tasks.length;
    this.#given = problem.links;
    this.#ties = openingTies(problem);
    const m = this.#given.length + this.#ties.length;
    const into = new Int32Array(n + 1);
    const out = new Int32Array(n + 1);
    // The records are read once: they lie all over the memory.
    const number = new Int32Array(m);
    const before = new Int32Array(m);
    const after = new Int32Array(m);
    const kinds = new Uint8Array(m);
    const lags = new Int32Array(m);
    let counted = 0;
    for (let k = 0; k < m; k++) {
      const link = this.link(k);
      const kind = kindOf(link);
      const of = state[link.after];
      if (of !== 0 && (of !== BEGUN || (kind & TO_FINISH) === 0)) continue;
      into[link.after + 1]++;
      out[link.before + 1]++;
      number[counted] = k;
      before[counted] = link.before;
      after[counted] = link.after;
      kinds[counted] = kind;
      lags[counted++] = link.lag;
    }
    this.into = rows(into);
    this.out = rows(out);
    this.number = new Int32Array(counted);
    const nextIn = into.slice(0, n);
    const nextOut = out.slice(0, n);
    for (let c = 0; c < counted; c++) {
      const a = nextIn[after[c]]++;
      this.number[a] = number[c];
      fill(this.into, a, before[c], kinds[c], lags[c]);
      fill(this.out, nextOut[before[c]]++, after[c], kinds[c], lags[c]);
    }
  }

  /** The link of a number: the problem's own first, then the ties. */
  link(k: number): Link {
    return k < this.#given.length ? this.#given[k] : this.#ties[k - this.#given.length];
  }
}

/** The bits of a link. */
export function kindOf({ relation, lagKind }: Link): number {
  const from = relation === 'finish-to-start' || relation === 'finish-to-finish' ? FROM_FINISH : 0;
  const to = relation === 'finish-to-finish' || relation === 'start-to-finish' ? TO_FINISH : 0;
  return from | to | (lagKind === 'working' ? WORKING : 0);
}

/** Empty rows from how many each has, one place later; the counts become the rows' beginnings. */
function rows(first: Int32Array): Rows {
  for (let i = 1; i < first.length; i++) first[i] += first[i - 1];
  const all = first[first.length - 1];
  return { first, other: new Int32Array(all), kind: new Uint8Array(all), lag: new Int32Array(all) };
}

function fill({ other, kind, lag }: Rows, a: number, task: number, of: number, minutes: number): void {
  other[a] = task;
  kind[a] = of;
  lag[a] = minutes;
}

/** Tasks in an order in which every link runs forward (Kahn 1962, from memory), or a circle of them. */
export function inOrder({ into, out }: LinkRows): { order: Int32Array; circle: number[] | null } {
  const n = into.first.length - 1;
  const order = new Int32Array(n);
  const waits = new Int32Array(n);
  let filled = 0;
  for (let i = 0; i < n; i++) {
    waits[i] = into.first[i + 1] - into.first[i];
    if (waits[i] === 0) order[filled++] = i;
  }
  for (let k = 0; k < filled; k++) {
    for (let a = out.first[order[k]]; a < out.first[order[k] + 1]; a++) {
      const j = out.other[a];
      if (--waits[j] === 0) order[filled++] = j;
    }
  }
  if (filled === n) return { order, circle: null };

  // Every task left waits for another one left: walking back must come round.
  const seen = new Map<number, number>();
  const walk: number[] = [];
  let i = waits.findIndex((count) => count > 0);
  while (!seen.has(i)) {
    seen.set(i, walk.length);
    walk.push(i);
    let a = into.first[i];
    while (waits[into.other[a]] === 0) a++;
    i = into.other[a];
  }
  return { order: order.subarray(0, filled), circle: walk.slice(seen.get(i)).reverse() };
}
