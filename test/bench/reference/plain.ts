import { Dice } from '../generate/dice.js';
import { range } from '../generate/links.js';
import type { ToolInstance } from '../instance.js';

/**
 * The yardstick: the textbook's serial generation over arrays minute by minute, without any of the engine's ideas, and
 * what is drawn with it. Never part of the product.
 */
export class PlainSchedules {
  readonly tasks: number;
  readonly #before: number[][];
  readonly #after: number[][];
  readonly #horizon: number;
  readonly #lateFinish: number[];

  constructor(readonly instance: ToolInstance) {
    const { durations, order } = instance;
    this.tasks = durations.length;
    this.#before = durations.map((_, i) => order.flatMap(([a, b]) => (b === i ? [a] : [])));
    this.#after = durations.map((_, i) => order.flatMap(([a, b]) => (a === i ? [b] : [])));
    this.#horizon = durations.reduce((sum, minutes) => sum + minutes, 0);
    this.#lateFinish = new Array<number>(this.tasks).fill(this.#horizon);
    // Tasks of generated projects are numbered so that every link goes upwards.
    for (let i = this.tasks - 1; i >= 0; i--)
      for (const j of this.#after[i])
        this.#lateFinish[i] = Math.min(this.#lateFinish[i], this.#lateFinish[j] - durations[j]);
  }

  /** The makespan of the list: each task at the earliest minute that its forerunners and the resources allow. */
  draw(list: number[]): number {
    const { durations, capacity, takes } = this.instance;
    const used = capacity.map(() => new Int32Array(this.#horizon + 1));
    const ends = new Array<number>(this.tasks).fill(0);
    for (const i of list) {
      let start = Math.max(0, ...this.#before[i].map((a) => ends[a]));
      for (let t = start; t < start + durations[i]; t++)
        if (capacity.some((most, r) => used[r][t] + takes[i][r] > most)) start = t + 1;
      for (let t = start; t < start + durations[i]; t++)
        for (let r = 0; r < capacity.length; r++) used[r][t] += takes[i][r];
      ends[i] = start + durations[i];
    }
    return Math.max(0, ...ends);
  }

  /** Least late finish first: the best known single rule. */
  byRule(): number {
    return this.draw(this.#list(() => 0));
  }

  /**
   * The best of so many lists sampled with a bias towards early late finishes (regret-based biased random sampling,
   * Drexl 1991): chances rise with how much later than this task's the latest of the late finishes is.
   */
  bySampling(schedules: number, seed: number): number {
    const dice = new Dice(seed);
    let best = Infinity;
    for (let k = 0; k < schedules; k++)
      best = Math.min(
        best,
        this.draw(
          this.#list((ready) => {
            const latest = Math.max(...ready.map((i) => this.#lateFinish[i]));
            const weights = ready.map((i) => latest - this.#lateFinish[i] + 1);
            let left = dice.share() * weights.reduce((sum, weight) => sum + weight, 0);
            return Math.max(
              0,
              weights.findIndex((weight) => (left -= weight) < 0),
            );
          }),
        ),
      );
    return best;
  }

  /** A list in which no task comes before its forerunners; `pick` chooses among the ready ones, least late first. */
  #list(pick: (ready: number[]) => number): number[] {
    const waits = this.#before.map(({ length }) => length);
    const ready = range(0, this.tasks).filter((i) => waits[i] === 0);
    const list: number[] = [];
    while (ready.length > 0) {
      ready.sort((a, b) => this.#lateFinish[a] - this.#lateFinish[b] || a - b);
      const [i] = ready.splice(pick(ready), 1);
      list.push(i);
      for (const j of this.#after[i]) if (--waits[j] === 0) ready.push(j);
    }
    return list;
  }
}
