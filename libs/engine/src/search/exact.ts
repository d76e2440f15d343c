import { BranchSearch, type Answer } from '../branch/branch-search.js';
import { NEVER } from '../calendar.js';
import type { Minute } from '../problem.js';
import type { Aside, Bench, Kept } from './bench.js';

/** Passes between two turns and steps of a turn: at first, and at most. Both double from turn to turn. */
const FIRST_PASSES = 256;
const MOST_PASSES = 16_384;
const FIRST_STEPS = 512;
const MOST_STEPS = 16_384;

/**
 * The branch search in turns with the others. Turns are counted in passes and steps, never by the clock, so that a
 * search that was cut short can be replayed by both counts.
 */
export class Exact implements Aside {
  dueAt = FIRST_PASSES;
  /** Steps spent. */
  get steps(): number {
    return this.#search?.steps ?? 0;
  }

  readonly #bench: Bench;
  readonly #budget: number;
  readonly #shouldStop: () => boolean;
  readonly #onBound: (ready: Minute) => void;
  readonly #otherwise: Aside | null;
  #search: BranchSearch | null | undefined;
  #passes = FIRST_PASSES;
  #turn = FIRST_STEPS;
  #turns = 0;

  /**
   * @param budget steps to spend at most
   * @param onBound told of each minute before which no plan is ready
   * @param otherwise what to do in its place where it does not know all of the problem's rules
   */
  constructor(
    bench: Bench,
    budget: number,
    shouldStop: () => boolean,
    onBound: (ready: Minute) => void,
    otherwise: Aside | null,
  ) {
    this.#otherwise = otherwise;
    this.#bench = bench;
    this.#budget = budget;
    this.#shouldStop = shouldStop;
    this.#onBound = onBound;
  }

  run(): void {
    const bench = this.#bench;
    const { best } = bench;
    if (best === null) return;
    if (this.#search === undefined) this.#search = BranchSearch.for(bench.model, answerOf(best), bench.bound);
    const search = this.#search;
    if (search === null) {
      this.dueAt = NEVER;
      if (this.#otherwise !== null) bench.asides.push(this.#otherwise);
      return;
    }
    search.tell(answerOf(best));
    const early = this.#turn === MOST_STEPS && this.#turns++ % 3 === 0;
    const end = Math.min(this.#budget, search.steps + this.#turn);
    while (search.steps < end && !search.isDone && !this.#shouldStop()) {
      const answer = search.run(end - search.steps, early, this.#shouldStop);
      if (answer !== null) this.#keep(answer);
    }
    if (search.bound > bench.bound) this.#onBound(search.bound);
    if (search.isDone || search.steps >= this.#budget) {
      this.dueAt = NEVER;
      return;
    }
    if (search.steps < end) return;
    this.dueAt = bench.effort + this.#passes;
    this.#passes = Math.min(2 * this.#passes, MOST_PASSES);
    this.#turn = Math.min(2 * this.#turn, MOST_STEPS);
  }

  /** Draws the answer by its order, as every plan is drawn; as it stands, where that comes out later. */
  #keep({ ready, start, crew }: Answer): void {
    const bench = this.#bench;
    const { n } = bench.model;
    const list = new Int32Array(n);
    const hands = new Uint8Array(n);
    bench.orderer.byKey(start, list);
    bench.try(list, hands);
    if (bench.best !== null && bench.best.ready > ready) bench.take(list, hands, start, crew, ready);
  }
}

function answerOf({ ready, start, crew }: Kept): Answer {
  return { ready, start, crew };
}
