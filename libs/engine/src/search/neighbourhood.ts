import { NEVER } from '../calendar.js';
import type { Model } from '../model/model.js';
import type { Minute } from '../problem.js';
import type { Bench, Kept } from './bench.js';
import type { Random } from './random.js';

/** Share of the plan's length over which the press on the end fades by a factor of e. */
const SOFT = 0.01;
/** How much worse, in the logarithm of the strain, a neighbour may be and still be kept now and then. */
const WARMTH = 0.5;
/** No neighbour is kept that is later than the best by more than this share of its length. */
const ASTRAY = 0.03;

/**
 * Search in the neighbourhood of one plan (large-neighbourhood search, Shaw 1998; from memory): some tasks lose
 * their place in the order and are put back near it at random, all others keep theirs. What is taken out is a
 * stretch of time, the users of one skill or tool, what runs up to the end, or a few tasks anywhere; the kinds that
 * gained lately are chosen more often.
 *
 * Whether a neighbour is kept goes by its strain: how hard its tasks press on the end, each measured against how far
 * it could slip in the best plan. A little more strain is taken now and then (simulated annealing at one warmth).
 */
export class Neighbourhood {
  /** Passes since the plan that this search stands on got better. */
  idle = 0;
  ready: Minute = NEVER;

  readonly #bench: Bench;
  readonly #random: Random;
  readonly #groups: Int32Array[];
  readonly #tails: Int32Array;
  readonly #keys: Float64Array;
  readonly #list: Int32Array;
  readonly #hands: Uint8Array;
  readonly #weights = new Float64Array(4).fill(1);
  readonly #order: Int32Array;
  #end: Int32Array;
  #current: Uint8Array;
  #strain = 0;
  #best: Minute = 0;
  readonly #late: Int32Array;

  /** @param tails minutes from each task's end to the end of all, at the least */
  constructor(bench: Bench, random: Random, tails: Int32Array) {
    const { n } = bench.model;
    this.#bench = bench;
    this.#random = random;
    this.#tails = tails;
    this.#groups = groupsOf(bench.model);
    this.#keys = new Float64Array(n);
    this.#list = new Int32Array(n);
    this.#hands = new Uint8Array(n);
    this.#order = new Int32Array(n);
    this.#end = new Int32Array(n);
    this.#current = new Uint8Array(n);
    this.#late = new Int32Array(n);
  }

  /** Stands on a plan. */
  settle(plan: Kept): void {
    this.#order.set(plan.list);
    this.#end.set(plan.end);
    this.#current.set(plan.hands);
    this.ready = plan.ready;
    this.#measure();
    this.idle = 0;
  }

  /** Pushes the plan back to see how far each task could slip, and measures its strain against that. */
  #measure(): void {
    const bench = this.#bench;
    const { n } = bench.model;
    this.#list.set(this.#order);
    const ready = bench.try(this.#list, this.#current);
    if (ready !== NEVER && ready <= this.ready) {
      const next = bench.justify(this.#list, this.#current, ready);
      if (bench.lateEnds(this.#late))
        for (let i = 0; i < n; i++) this.#tails[i] = Math.max(0, ready - this.#late[i]);
      if (next <= ready) {
        this.#order.set(this.#list);
        this.#end.set(bench.forward.end);
        this.ready = next;
      }
    }
    this.#strain = this.#strainOf(this.#end, this.ready);
    this.#best = this.ready;
  }

  /** Tries one neighbour. */
  step(): void {
    const bench = this.#bench;
    const random = this.#random;
    const { n } = bench.model;
    this.idle++;
    this.#hands.set(this.#current);
    for (let k = 0; k < n; k++) this.#keys[this.#order[k]] = k;
    const kind = this.#pick();
    this.#shake(kind);
    if (random.share() < 0.25) {
      const i = random.below(n);
      this.#hands[i] = random.share() < 0.3 ? 0 : random.below(bench.choices[i]);
    }
    bench.order('forward', this.#keys, this.#list);
    let ready = bench.try(this.#list, this.#hands);
    if (ready === NEVER) return;
    if (bench.twoSided && ready <= this.ready + (this.ready - bench.model.now) * 0.05 && !bench.isOver()) {
      ready = bench.justify(this.#list, this.#hands, ready);
    }
    this.#weights[kind] *= 0.995;
    const { end } = bench.forward;
    const strain = this.#strainOf(end, ready);
    if (ready >= this.#best) {
      if (ready > this.#best + (this.#best - bench.model.now) * ASTRAY) return;
      if (strain > this.#strain * (1 - random.share()) ** -WARMTH) return;
    }
    if (ready < this.#best || strain < this.#strain) {
      if (ready < this.#best) this.idle = 0;
      this.#weights[kind] += 0.1;
    }
    this.ready = ready;
    this.#strain = strain;
    this.#order.set(this.#list);
    this.#end.set(end);
    this.#current.set(this.#hands);
    if (ready < this.#best) this.#measure();
  }

  #pick(): number {
    let sum = 0;
    for (const weight of this.#weights) sum += weight + 0.2;
    let at = this.#random.share() * sum;
    for (let kind = 0; kind < this.#weights.length; kind++) {
      at -= this.#weights[kind] + 0.2;
      if (at < 0) return kind;
    }
    return 0;
  }

  /** Gives new keys, places in the order, to the tasks that are taken out. */
  #shake(kind: number): void {
    const random = this.#random;
    const { n } = this.#bench.model;
    const keys = this.#keys;
    const reach = 2 + n * 0.25 * random.share() ** 2;
    switch (kind) {
      case 0: {
        const from = random.share() * n - reach / 2;
        for (let i = 0; i < n; i++) {
          if (keys[i] >= from && keys[i] <= from + reach) keys[i] = from + reach * random.share();
        }
        return;
      }
      case 1: {
        if (this.#groups.length === 0) {
          this.#shake(0);
          return;
        }
        const group = this.#groups[random.below(this.#groups.length)];
        for (const i of group) if (random.share() < 0.5) keys[i] += 2 * reach * (random.share() - 0.5);
        return;
      }
      case 2: {
        // Tasks that come close to pushing the end go earlier.
        const slack = 0.05 * (this.ready - this.#bench.model.now) * random.share();
        for (let i = 0; i < n; i++) {
          if (this.#end[i] + this.#tails[i] >= this.#best - slack && random.share() < 0.3) {
            keys[i] -= reach * random.share();
          }
        }
        return;
      }
      default: {
        const times = 1 + random.below(4);
        for (let t = 0; t < times; t++) keys[random.below(n)] += 2 * reach * (random.share() - 0.5);
      }
    }
  }

  /** How hard tasks press on the end: the closer to where they would push it, the more. */
  #strainOf(end: Int32Array, ready: Minute): number {
    const soft = 1 / Math.max(1, SOFT * (ready - this.#bench.model.now));
    let sum = 0;
    for (let i = 0; i < end.length; i++) sum += Math.exp((end[i] + this.#tails[i] - this.#best) * soft);
    return sum;
  }
}

/** Tasks that compete: those that hold the same tool, or seat the same skill. */
function groupsOf({ problem, n, kind }: Model): Int32Array[] {
  const rows = new Map<string, number[]>();
  for (let i = 0; i < n; i++) {
    if (problem.tasks[i].progress.kind === 'done' || kind[i] === 0) continue;
    const names = new Set([
      ...problem.tasks[i].tools.map((use) => `tool ${use.tool}`),
      ...problem.tasks[i].seats.map((seat) => `skill ${seat.skill}`),
    ]);
    for (const name of names) rows.set(name, [...(rows.get(name) ?? []), i]);
  }
  return [...rows.values()].filter((row) => row.length > 1).map((row) => Int32Array.from(row));
}
