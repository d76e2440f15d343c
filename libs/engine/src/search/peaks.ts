import { Kind } from '../model/kind.js';
import type { Model } from '../model/model.js';
import type { Minute } from '../problem.js';

/** Steps that a plan's length is cut into, at most, when its busiest part is looked for. */
const STEPS = 256;

/**
 * Where a plan is busiest: the window of a given share of its length over which tasks ask most of tools and people,
 * each ask counted against what there is of it. One pass over the tasks and one over at most 256 steps.
 */
export class Peaks {
  readonly #n: number;
  /** What a task asks for in a minute, as a fraction of what there is, and for how long. */
  readonly #weight: Float64Array;
  readonly #length: Int32Array;
  readonly #load = new Float64Array(STEPS + 2);
  from: Minute = 0;
  to: Minute = 0;

  constructor(model: Model) {
    const { n, problem, toolAt, toolPairs, need, needs, kind, minutes } = model;
    this.#n = n;
    this.#weight = new Float64Array(n);
    this.#length = new Int32Array(n);
    for (let i = 0; i < n; i++) {
      if (kind[i] === Kind.Done || kind[i] === Kind.Mark) continue;
      this.#length[i] = Math.max(
        1,
        minutes[i] >= 0 ? minutes[i] : Math.ceil(model.amount[i] / Math.max(1, model.efficient[i])),
      );
      for (let q = toolAt[i]; q < toolAt[i + 1]; q += 2) {
        this.#weight[i] += toolPairs[q + 1] / Math.max(1, problem.tools[toolPairs[q]].capacity);
      }
      if (need[i] < 0) continue;
      const { seats, lean } = needs[need[i]];
      this.#weight[i] += lean / Math.max(1, problem.people.length);
      for (const { able, count } of seats) {
        let fit = 0;
        for (const word of able) for (let w = word; w !== 0; w &= w - 1) fit++;
        this.#weight[i] += count / Math.max(1, fit);
      }
    }
  }

  /** Sets `from` and `to` and returns this: the busiest window of the plan whose tasks start at `starts`. */
  busiest(starts: Int32Array, length: Minute, share: number): this {
    const steps = Math.max(1, Math.min(STEPS, length));
    const scale = steps / Math.max(1, length);
    const load = this.#load;
    load.fill(0, 0, steps + 2);
    // Second differences: a task adds its weight a step from its start to its end.
    for (let i = 0; i < this.#n; i++) {
      const weight = this.#weight[i];
      if (weight === 0) continue;
      const a = (starts[i] * scale) | 0;
      const b = Math.min(steps, Math.max(a + 1, ((starts[i] + this.#length[i]) * scale) | 0));
      load[a < 0 ? 0 : a > steps ? steps : a] += weight;
      load[b < 0 ? 0 : b] -= weight;
    }
    for (let t = 1; t <= steps; t++) load[t] += load[t - 1];
    const width = Math.max(1, Math.min(steps, Math.round(share * steps)));
    let sum = 0;
    for (let t = 0; t < width; t++) sum += load[t];
    let best = sum;
    let at = 0;
    for (let t = width; t < steps; t++) {
      sum += load[t] - load[t - width];
      if (sum > best) {
        best = sum;
        at = t - width + 1;
      }
    }
    this.from = Math.floor(at / scale);
    this.to = Math.ceil((at + width) / scale);
    return this;
  }
}
