import { Atoms } from './atoms.js';
import { Kernel, Why, type Rules } from './kernel.js';
import { Learner } from './learn.js';

/** How a search ended: all variables have values, no values keep the rules, told to stop. */
export type Ending = 'found' | 'none' | 'stopped';

const RUN = 100;
/** Clauses that are kept at first, and more after each clearing out. */
const FIRST_CLAUSES = 4000;
const MORE_CLAUSES = 500;
const DECAY = 0.95;
/** One run in so many takes the earliest first: of 2, 4 and 8 the last needed the fewest conflicts for a proof. */
const EARLY_RUN = 8;

/**
 * Tries values for variables, learns from each conflict and starts afresh now and then. A run now and
 * then, the first among them, takes the variables from `early` by least value first, as a foreman would; the others go
 * where the conflicts were.
 */
export class Branching {
  readonly kernel: Kernel;
  /** Steps made: one is a round of conclusions with the decision or the lesson after it. */
  steps = 0;
  conflicts = 0;

  readonly #learner: Learner;
  readonly #atoms: Atoms;
  readonly #early: Int32Array;
  readonly #late: Int32Array;
  /** Values that decisions lean to: those of the best answer known. */
  readonly #leaning: Int32Array;
  #leans = false;
  readonly #run: number;
  #runs = 0;
  #runEnds: number;
  #mostClauses = FIRST_CLAUSES;

  /**
   * @param early variables whose least value is tried first
   * @param late variables that are tried when all those have values
   * @param run conflicts of the shortest run between restarts
   */
  constructor(rules: Rules, early: number[], late: number[], run = RUN) {
    this.#run = run;
    this.#runEnds = run;
    this.kernel = new Kernel(rules);
    this.#atoms = new Atoms(this.kernel.trail, DECAY);
    this.#learner = new Learner(this.kernel, (side, value) => {
      this.#atoms.bump(side, value);
    });
    this.#early = Int32Array.from(early);
    this.#late = Int32Array.from(late);
    this.#leaning = new Int32Array(rules.low.length);
  }

  /** Decisions lean to these values from now on. */
  lean(values: ArrayLike<number>): void {
    this.#leaning.set(values);
    this.#leans = true;
  }

  /** From now on a literal holds; false when that can't be. */
  require(side: number, value: number): boolean {
    const { kernel } = this;
    if (!kernel.sound) return false;
    this.#backTo(0);
    kernel.sound = kernel.trail.set(side, value, Why.Decided, 0) && kernel.propagate();
    return kernel.sound;
  }

  /**
   * Goes on until an answer is found or there is none.
   * @param assumed a literal to suppose; 'none' then means that it can't hold, and `require` can say so
   * @param shouldStop asked at each step
   */
  run(shouldStop: () => boolean, assumed?: { side: number; value: number }): Ending {
    const { kernel } = this;
    const { trail } = kernel;
    this.#backTo(0);
    for (;;) {
      if (!kernel.sound) return 'none';
      if (shouldStop()) return 'stopped';
      this.steps++;
      if (!kernel.propagate()) {
        if (!this.#learn()) return 'none';
        continue;
      }
      if (this.conflicts >= this.#runEnds) {
        this.#restart();
        continue;
      }
      if (assumed && trail.level === 0) {
        if (trail.bound[assumed.side ^ 1] >= 1 - assumed.value) return 'none';
        this.#open();
        trail.set(assumed.side, assumed.value, Why.Decided, 0);
        continue;
      }
      if (!this.#decide()) return 'found';
    }
  }

  #learn(): boolean {
    const { kernel } = this;
    this.conflicts++;
    const learner = this.#learner;
    if (!learner.fromConflict()) return false;
    const { clause } = learner;
    this.#backTo(learner.backTo);
    const ref = clause.count > 1 ? kernel.clauses.add(clause, learner.blocks) : Why.Decided;
    const sound = kernel.trail.set(clause.at[0], clause.at[1], ref, 0);
    kernel.clauses.decay();
    this.#atoms.decay();
    return sound;
  }

  #restart(): void {
    this.#runs++;
    this.#runEnds = this.conflicts + this.#run * luby(this.#runs + 1);
    this.#backTo(0);
    const { clauses } = this.kernel;
    if (clauses.count < this.#mostClauses && !clauses.isFull) return;
    if (!this.kernel.propagate()) return;
    clauses.reduce();
    this.#mostClauses += MORE_CLAUSES;
  }

  #decide(): boolean {
    const { trail } = this.kernel;
    const { bound } = trail;
    if (this.#runs % EARLY_RUN !== 0 && this.#atoms.next()) {
      const { variable: x, value } = this.#atoms;
      this.#open();
      if (this.#leans && this.#leaning[x] >= value) trail.set(2 * x, value, Why.Decided, 0);
      else trail.set(2 * x + 1, 1 - value, Why.Decided, 0);
      return true;
    }
    let x = -1;
    let least = 0;
    let most = 0;
    for (let k = 0; k < this.#early.length; k++) {
      const y = this.#early[k];
      const low = bound[2 * y];
      const high = -bound[2 * y + 1];
      if (low === high || (x >= 0 && (low > least || (low === least && high >= most)))) continue;
      x = y;
      least = low;
      most = high;
    }
    if (x < 0) {
      for (let k = 0; k < this.#late.length && x < 0; k++) {
        const y = this.#late[k];
        if (bound[2 * y] !== -bound[2 * y + 1]) x = y;
      }
      if (x < 0) return false;
      least = bound[2 * x];
    }
    this.#open();
    trail.set(2 * x + 1, -least, Why.Decided, 0);
    return true;
  }

  #open(): void {
    this.kernel.openLevel();
    this.#atoms.openLevel(this.kernel.trail.level);
  }

  #backTo(level: number): void {
    if (level >= this.kernel.trail.level) return;
    this.kernel.backTo(level);
    this.#atoms.backTo(level);
  }
}

/** 1 1 2 1 1 2 4 1 1 2 ... (Luby, Sinclair and Zuckerman 1993, from memory). @param k from 1 */
function luby(k: number): number {
  let size = 1;
  while (size < k + 1) size *= 2;
  if (size === k + 1) return size / 2;
  return luby(k - size / 2 + 1);
}
