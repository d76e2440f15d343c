import { lowerBound } from '../bounds/lower-bound.js';
import { NEVER } from '../calendar.js';
import type { Bound } from '../plan.js';
import type { Aside, Bench } from './bench.js';

/** Tasks up to which a supposition is cheap enough to try many. */
const MOST_TASKS = 120;
const FIRST_PASSES = 1024;
const FIRST_PROBES = 64;
const MOST_PROBES = 4096;

/**
 * The strongest bound in turns with the search, for problems that the branch search does not know. Each turn supposes
 * four times as much as the one before and comes four times as late, until one says nothing more.
 */
export class Shaving implements Aside {
  dueAt = FIRST_PASSES;
  readonly #bench: Bench;
  readonly #bound: () => Bound;
  readonly #shouldStop: () => boolean;
  readonly #onBound: (bound: Bound) => void;
  #probes = FIRST_PROBES;

  /** @param anySize whether a yard of any size is worth it: another search goes on at the same time */
  constructor(
    bench: Bench,
    bound: () => Bound,
    shouldStop: () => boolean,
    onBound: (bound: Bound) => void,
    anySize: boolean,
  ) {
    this.#bench = bench;
    this.#bound = bound;
    this.#shouldStop = shouldStop;
    this.#onBound = onBound;
    if (!anySize && bench.model.n > MOST_TASKS) this.dueAt = NEVER;
  }

  run(): void {
    const { best, model } = this.#bench;
    if (best === null) return;
    const from = this.#bound();
    const bound = lowerBound(model.problem, {
      from,
      upTo: best.ready,
      probes: this.#probes,
      shouldStop: this.#shouldStop,
    });
    if (bound.ready > from.ready) this.#onBound(bound);
    this.dueAt = this.#probes < MOST_PROBES ? this.dueAt * 4 : NEVER;
    this.#probes *= 4;
  }
}
