import { thereBefore, type Load } from './loads.js';

/**
 * Energetic reasoning on one load (Erschler and Lopez 1990, Baptiste, Le Pape and Nuijten 1999; from memory).
 *
 * Between any two working minutes a and b, each task must do at least what neither starting as early nor ending as
 * late as it may keeps out of there. If all together need more than there is, nothing fits. If one task, started as
 * early as it may, would need more than the others leave, it starts later.
 *
 *     window      |----------------------|
 *     early   #######                                 in [a, b): the smaller of the two
 *     late                            #######
 *                     a ........ b
 *
 * For a fixed a the need is a sum of ramps in b, so one sorted sweep over their ends finds every b that matters.
 */
export interface Windows {
  /** Earliest start and latest end, in working minutes, a task. */
  from: Float64Array;
  to: Float64Array;
}

const SLACK = 1e-6;

export class Energy {
  readonly #task: Int32Array;
  readonly #height: Float64Array;
  readonly #minutes: Float64Array;
  readonly #whole: Uint8Array;
  readonly #events: Float64Array;
  readonly #slope: Float64Array;
  readonly #sorted: Int32Array;
  readonly #starts: Float64Array;
  readonly #highest: number;
  /** Where the last failed check found too much: between these working minutes, this much needed and there. */
  failedFrom = 0;
  failedTo = 0;
  needed = 0;
  there = 0;

  /** @param mostStarts how many minutes to take as `a`, so that long lists stay affordable */
  constructor(
    readonly load: Load,
    readonly mostStarts: number,
  ) {
    const { items } = load;
    const n = items.length;
    this.#task = Int32Array.from(items, (item) => item.task);
    this.#height = Float64Array.from(items, (item) => item.height);
    this.#minutes = Float64Array.from(items, (item) => item.minutes);
    this.#whole = Uint8Array.from(items, (item) => (item.whole ? 1 : 0));
    this.#highest = Math.max(0, ...this.#height);
    this.#events = new Float64Array(2 * n);
    this.#slope = new Float64Array(2 * n);
    this.#sorted = new Int32Array(2 * n);
    this.#starts = new Float64Array(3 * n);
  }

  /** False when the load can't be met within the windows. */
  holds(windows: Windows): boolean {
    const count = this.#chooseStarts(windows);
    for (let s = 0; s < count; s++) if (!this.#sweep(windows, this.#starts[s], null)) return false;
    return true;
  }

  /** As `holds`, and raises `windows.from` of tasks that can't start so early; `raised` marks them. */
  push(windows: Windows, raised: Uint8Array): boolean {
    const count = this.#chooseStarts(windows);
    for (let s = 0; s < count; s++) if (!this.#sweep(windows, this.#starts[s], raised)) return false;
    return true;
  }

  /** The minutes worth taking as `a`: where windows open, latest starts and earliest ends, evenly thinned. */
  #chooseStarts({ from, to }: Windows): number {
    const n = this.#task.length;
    const starts = this.#starts;
    for (let k = 0; k < n; k++) {
      const i = this.#task[k];
      starts[3 * k] = from[i];
      starts[3 * k + 1] = to[i] - this.#minutes[k];
      starts[3 * k + 2] = from[i] + this.#minutes[k];
    }
    starts.sort();
    let count = 0;
    for (let k = 0; k < 3 * n; k++)
      if (count === 0 || starts[k] > starts[count - 1] + SLACK) starts[count++] = starts[k];
    if (count <= this.mostStarts) return count;
    for (let k = 0; k < this.mostStarts; k++) starts[k] = starts[Math.floor((k * count) / this.mostStarts)];
    return this.mostStarts;
  }

  /** All b for one a. Each task's need is 0 up to a minute, then rises by its height a minute, then stays. */
  #sweep(windows: Windows, a: number, raised: Uint8Array | null): boolean {
    const { from, to } = windows;
    const n = this.#task.length;
    let count = 0;
    for (let k = 0; k < n; k++) {
      const i = this.#task[k];
      const minutes = this.#minutes[k];
      const most = from[i] < a ? minutes - (a - from[i]) : minutes;
      if (most <= SLACK) continue;
      const late = to[i] - (this.#whole[k] ? minutes : most);
      const begin = late > a ? late : a;
      this.#events[count] = begin;
      this.#slope[count++] = this.#height[k];
      this.#events[count] = begin + most;
      this.#slope[count++] = -this.#height[k];
    }
    const order = this.#sorted.subarray(0, count);
    for (let e = 0; e < count; e++) order[e] = e;
    order.sort((x, y) => this.#events[x] - this.#events[y]);
    const before = thereBefore(this.load, a);
    let need = 0;
    let slope = 0;
    let last = a;
    for (let e = 0; e < count; e++) {
      const b = this.#events[order[e]];
      need += slope * (b - last);
      last = b;
      slope += this.#slope[order[e]];
      if (this.#slope[order[e]] > 0) continue;
      const there = thereBefore(this.load, b) - before;
      if (need > there + SLACK) {
        this.failedFrom = a;
        this.failedTo = b;
        this.needed = need;
        this.there = there;
        return false;
      }
      if (raised && there - need < this.#highest * (b - a)) this.#raise(windows, a, b, there - need, raised);
    }
    return true;
  }

  #raise({ from, to }: Windows, a: number, b: number, spare: number, raised: Uint8Array): void {
    for (let k = 0; k < this.#task.length; k++) {
      if (!this.#whole[k]) continue;
      const i = this.#task[k];
      const minutes = this.#minutes[k];
      const height = this.#height[k];
      if (from[i] >= b) continue;
      const early = Math.min(
        b - a,
        from[i] < a ? minutes - (a - from[i]) : minutes,
        from[i] + minutes - a,
        b - from[i],
      );
      if (early <= SLACK) continue;
      const late = minutes - (to[i] - b);
      const counted = Math.max(0, Math.min(early, late));
      const room = spare + counted * height;
      if (early * height <= room + SLACK) continue;
      const start = Math.ceil(b - room / height - SLACK);
      if (start <= from[i]) continue;
      from[i] = start;
      raised[i] = 1;
    }
  }
}
