import type { WorkCalendar } from '../calendar.js';
import type { Minute, Problem } from '../problem.js';
import type { Load } from './loads.js';

/**
 * One-go work does not run over a turnout's end: in a turnout of 100 minutes a bench takes one piece of 51 minutes or
 * more, not two. So for a length s, pieces at least that long need a slot each, and a stay of L minutes has floor(L / s)
 * of them. Energy alone would share the pieces out to the last minute.
 */
export class WholePieces {
  readonly #task: Int32Array;
  readonly #height: Float64Array;
  readonly #minutes: Float64Array;
  readonly #lengths: number[];
  /** By turnout: when how many units are there. */
  readonly #there: { from: Minute; to: Minute; count: number }[][];
  /** By length: slots of all turnouts before a turnout. */
  readonly #before: Float64Array[];
  readonly #starts: Float64Array;
  readonly #byEnd: Int32Array;

  constructor(
    problem: Problem,
    readonly load: Load,
    readonly calendar: WorkCalendar,
  ) {
    const items =
      load.kind === 'opening' || load.kind === 'queue' ? [] : load.items.filter((item) => item.whole);
    this.#task = Int32Array.from(items, (item) => item.task);
    this.#height = Float64Array.from(items, (item) => item.height);
    this.#minutes = Float64Array.from(items, (item) => item.minutes);
    const { name } = load;
    this.#there = problem.turnouts.map(({ start, end }) =>
      load.kind === 'tool' ? [{ from: start, to: end, count: load.most }] : [],
    );
    if ('people' in name) {
      for (const p of name.people) {
        for (const { turnout, from, to, showUp } of problem.people[p].stays) {
          if (showUp > 0) this.#there[turnout].push({ from, to, count: 1 });
        }
      }
    }
    this.#lengths = thinned(
      [...new Set(this.#minutes)].sort((a, b) => a - b),
      MOST_LENGTHS,
    );
    this.#before = this.#lengths.map((length) => {
      const before = new Float64Array(calendar.count + 1);
      this.#there.forEach((units, w) => {
        before[w + 1] = before[w];
        for (const { from, to, count } of units) before[w + 1] += count * Math.floor((to - from) / length);
      });
      return before;
    });
    this.#starts = new Float64Array(items.length);
    this.#byEnd = Int32Array.from(items, (_, k) => k);
  }

  /** Where the last failed check found too few slots: minutes, and pieces' minutes needed and there. */
  failedFrom = 0;
  failedTo = 0;
  needed = 0;
  there = 0;

  /** False when the pieces don't find slots within their windows, in minutes. */
  holds(from: ArrayLike<number>, to: ArrayLike<number>): boolean {
    if (this.calendar.count === 1 || this.#task.length < 2) return true;
    for (let k = 0; k < this.#task.length; k++) this.#starts[k] = from[this.#task[k]];
    const starts = thinned(
      [...new Set(this.#starts)].sort((a, b) => a - b),
      MOST_STARTS,
    );
    this.#byEnd.sort((x, y) => to[this.#task[x]] - to[this.#task[y]]);
    return this.#lengths.every((length, l) =>
      starts.every((a) => {
        let asked = 0;
        for (const k of this.#byEnd) {
          const task = this.#task[k];
          if (this.#minutes[k] < length || from[task] < a) continue;
          asked += this.#height[k];
          const slots = this.#slots(l, a, to[task]);
          if (asked <= slots) continue;
          this.failedFrom = a;
          this.failedTo = to[task];
          this.needed = asked * length;
          this.there = slots * length;
          return false;
        }
        return true;
      }),
    );
  }

  #slots(l: number, a: Minute, b: Minute): number {
    const { calendar } = this;
    const first = calendar.turnoutAfter(a);
    const last = calendar.turnoutAfter(b - 1);
    if (first === last) return this.#partly(l, first, a, b);
    const between = this.#before[l][last] - this.#before[l][first + 1];
    return this.#partly(l, first, a, b) + between + this.#partly(l, last, a, b);
  }

  #partly(l: number, w: number, a: Minute, b: Minute): number {
    if (w >= this.calendar.count) return 0;
    let slots = 0;
    for (const { from, to, count } of this.#there[w]) {
      const minutes = Math.min(to, b) - Math.max(from, a);
      if (minutes > 0) slots += count * Math.floor(minutes / this.#lengths[l]);
    }
    return slots;
  }
}

const MOST_LENGTHS = 6;
const MOST_STARTS = 24;

/** At most so many of a sorted list, evenly chosen, the first and the last among them. */
function thinned(sorted: number[], most: number): number[] {
  if (sorted.length <= most) return sorted;
  return Array.from({ length: most }, (_, k) => sorted[Math.round((k * (sorted.length - 1)) / (most - 1))]);
}
