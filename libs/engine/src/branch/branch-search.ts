import type { Model } from '../model/model.js';
import { put } from '../model/people.js';
import type { Minute } from '../problem.js';
import { Branching } from './branching.js';
import { applies, questionOf, type Question } from './rules-of.js';
import { settle } from './settle.js';

/** Starts by task, and crews as bits, as many words a task as the model's crowd has. */
export interface Answer {
  ready: Minute;
  start: Int32Array;
  crew: Int32Array;
}

/**
 * Exact search for the earliest ready minute: asks for a plan that is ready before the best one known, until there is
 * none. In between it supposes early minutes, so that what can't be ready by then is known where time runs out.
 */
export class BranchSearch {
  /** No plan is ready before this minute. */
  bound: Minute;
  /** Everything is said: no plan is ready before the best one told or found. */
  isDone = false;

  readonly #model: Model;
  readonly #question: Question;
  readonly #branching: Branching;
  #below: Minute;
  /** How many minutes are supposed to be too early at once. */
  #stride = 1;

  private constructor(model: Model, question: Question, bound: Minute, below: Minute) {
    const { n } = model;
    this.#model = model;
    this.#question = question;
    this.bound = bound;
    this.#below = below;
    const { rules } = question;
    const late = Array.from({ length: rules.low.length - n }, (_, k) => n + k);
    this.#branching = new Branching(rules, [...Array(n).keys()], late);
    this.#require();
  }

  /**
   * @param best the best plan known
   * @param bound a minute before which none is ready
   * @returns null where the problem has rules that this search does not know, or is too large for it
   */
  static for(model: Model, best: Answer, bound: Minute): BranchSearch | null {
    if (best.ready <= bound || !applies(model)) return null;
    const question = questionOf(model, best.ready - 1);
    if (question === null) return null;
    const search = new BranchSearch(model, question, bound, best.ready);
    search.#lean(best);
    return search;
  }

  get steps(): number {
    return this.#branching.steps;
  }

  /** Only plans ready before this one are asked for from now on. */
  tell(best: Answer): void {
    if (best.ready >= this.#below) return;
    this.#below = best.ready;
    this.#lean(best);
    this.#require();
  }

  /**
   * Goes on for so many steps.
   * @param early supposes that a plan is ready almost as soon as none is known not to be, and raises the bound where
   * that can't be; the clauses learned serve both ways of asking
   * @returns a better plan as soon as there is one, null when the steps are spent, it was told to stop, or all is said
   */
  run(steps: number, early: boolean, shouldStop: () => boolean): Answer | null {
    if (this.isDone) return null;
    const branching = this.#branching;
    const { ready, origin } = this.#question;
    const end = branching.steps + steps;
    const isOver = () => branching.steps >= end || ((branching.steps & 15) === 0 && shouldStop());
    const supposed = Math.min(this.bound + this.#stride - 1, this.#below - 1);
    const assumed = early ? { side: 2 * ready + 1, value: origin - supposed } : undefined;
    const ending = branching.run(isOver, assumed);
    if (ending === 'stopped') {
      if (early) this.#stride = Math.max(1, this.#stride >> 1);
      return null;
    }
    if (ending === 'none' && early) {
      this.bound = supposed + 1;
      this.#stride *= 2;
      this.#branching.require(2 * ready, this.bound - origin);
      this.isDone = this.bound >= this.#below;
      return null;
    }
    if (ending === 'none') {
      this.bound = this.#below;
      this.isDone = true;
      return null;
    }
    const answer = this.#answer();
    this.tell(answer);
    return answer;
  }

  #require(): void {
    const { ready, origin } = this.#question;
    if (this.#below > this.bound && this.#branching.require(2 * ready + 1, origin - (this.#below - 1)))
      return;
    this.bound = this.#below;
    this.isDone = true;
  }

  #lean({ start, crew }: Answer): void {
    const { rules, origin, ready, crews } = this.#question;
    const values = new Int32Array(rules.low.length);
    start.forEach((minute, i) => (values[i] = minute - origin));
    values[ready] = this.#below - origin;
    const { words } = this.#model.crowd;
    crews?.on.forEach((pairs, i) => {
      for (const [kind, variable] of pairs) {
        for (const rank of crews.kinds[kind]) {
          if ((crew[i * words + (rank >> 5)] & (1 << (rank & 31))) !== 0) values[variable]++;
        }
      }
    });
    this.#branching.lean(values);
  }

  #answer(): Answer {
    const { rules, origin, crews } = this.#question;
    const { n, minutes, crowd } = this.#model;
    const { bound } = this.#branching.kernel.trail;
    const values = Int32Array.from(rules.low, (_, x) => bound[2 * x]);
    settle(rules, values);
    const start = Int32Array.from({ length: n }, (_, i) => values[i] + origin);
    const crew = new Int32Array(n * crowd.words);
    let ready = origin;
    for (let i = 0; i < n; i++) ready = Math.max(ready, start[i] + minutes[i]);
    if (crews === null) return { ready, start, crew };
    // By name: whoever of the kind has been free since the task before.
    const freeAt = new Int32Array(crowd.count).fill(origin);
    const order = [...start.keys()].sort((a, b) => start[a] - start[b] || a - b);
    for (const i of order) {
      const set = crew.subarray(i * crowd.words, (i + 1) * crowd.words);
      for (const [kind, variable] of crews.on[i]) {
        const free = crews.kinds[kind].filter((rank) => freeAt[rank] <= start[i]);
        for (const rank of free.slice(0, values[variable])) {
          put(set, rank);
          freeAt[rank] = start[i] + minutes[i];
        }
      }
    }
    return { ready, start, crew };
  }
}
