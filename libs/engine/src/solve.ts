import { lowerBound } from './bounds/lower-bound.js';
import { NEVER, WorkCalendar } from './calendar.js';
import { Lengths, minutesOf } from './lengths.js';
import { network, NetworkPass } from './network.js';
import type { Bound, Outcome, Plan, Wish } from './plan.js';
import { planOf, type Spent } from './plan-of.js';
import type { Minute, Problem } from './problem.js';
import { Bench, type Drawn, type Kept } from './search/bench.js';
import { Exact } from './search/exact.js';
import { Shaving } from './search/shaving.js';
import { anyPlan, firstPlans, searchOn } from './search/search.js';
import { conflictsOfTasks, conflictsOfYard } from './wishes/conflicts.js';
import { hopeless } from './wishes/hopeless.js';

export interface SolveOptions {
  /** The same problem, seed, warm plan and numbers of schedules and steps give the same plan. */
  seed: number;
  /** How many generation passes to spend, forward or backward; 2,000 unless given, without end where `shouldStop` is. */
  schedules?: number;
  /**
   * How many steps the branch search may take, where it knows all of the problem's rules; 0 unless given where
   * `schedules` is given, without end where only `shouldStop` is.
   */
  steps?: number;
  /** Asked between passes; once true, the best plan so far is the answer. A first plan is always made. */
  shouldStop?: (progress: Progress) => boolean;
  /** The plan in force: the search starts from its order, and its crews are kept where it costs nothing. */
  warm?: Plan;
  onBetter?: (plan: Plan, progress: Progress) => void;
  /** Asked before a better plan is told; while false it waits, and a better one takes its place. */
  isListening?: () => boolean;
  /** Another search of the same problem, with another seed, that goes on at the same time. */
  other?: OtherSearch;
}

/** What two searches of one problem tell each other: how their best plans were drawn, and how good one can be. */
export interface OtherSearch {
  /** Whether the other one works on the bound, so that this one need not. */
  readonly bounds: boolean;
  /** Asked between passes for what is new since the last time; each is the newest of its kind. */
  news: () => { drawn: Drawn | null; bound: Bound | null };
  better: (drawn: Drawn & { ready: Minute }) => void;
  bound: (bound: Bound) => void;
}

/** For a search of few schedules that asks for no better bound than the critical path: it costs more than the plan. */
export const boundless: OtherSearch = {
  bounds: true,
  news: () => ({ drawn: null, bound: null }),
  better: () => undefined,
  bound: () => undefined,
};

export interface Progress {
  schedules: number;
  ready: Minute;
  bound: Minute;
}

/**
 * Finds a plan: a first one at once, then better ones until the budget is spent, somebody says stop, or the plan is
 * proved the best.
 *
 * The problem must be sound (`checkProblem`). Where no plan exists the answer names wishes that can't all hold.
 */
export function solve(problem: Problem, options: SolveOptions): Outcome {
  const net = network(problem);
  if (net.kind === 'circle') return noPlan([{ kind: 'circle', tasks: net.tasks }]);
  const { seed, shouldStop = () => false, warm, other } = options;
  const budget = options.schedules ?? (options.shouldStop ? Infinity : 2000);
  // The first plan must not wait for a better bound than this one.
  const teller = new Teller(criticalPath(problem), options);
  const poll = () => {
    teller.tell();
    const ready = bench.best?.ready ?? NEVER;
    return shouldStop({ schedules: bench.passes, ready, bound: teller.bound.ready });
  };
  const bench: Bench = new Bench(problem, { warm }, budget, poll, (kept) => {
    teller.hear(kept);
  });
  const wishes = hopeless(bench.model);
  if (wishes.length > 0) return { kind: 'no plan', ...conflictsOfTasks(problem, wishes) };
  if (!bench.forward.possible) return inTheYard(problem, shutIn(problem), seed);
  firstPlans(bench, net, true);
  if (bench.best === null) anyPlan(bench, net, seed, TRIES);
  if (bench.best === null) return inTheYard(problem, stuckAt(bench, problem), seed);
  if (bench.best.changes > 0) bench.keepPostings();
  teller.begin(bench, bench.best);
  const raise = (bound: Bound) => {
    teller.raise(bound);
  };
  const prove = () => {
    const upTo = bench.best?.ready ?? NEVER;
    raise(lowerBound(problem, { upTo, shouldStop: poll, onHigher: raise }));
  };
  // Where a bound is quick to have, it may spare the rest.
  if (bench.twoSided) prove();
  firstPlans(bench, net, false);
  const bounds = !other?.bounds;
  if (!bench.twoSided && bounds) prove();
  const steps = options.steps ?? (options.schedules === undefined && options.shouldStop ? Infinity : 0);
  if (steps > 0) {
    const shaving = bounds ? new Shaving(bench, () => teller.bound, poll, raise, other !== undefined) : null;
    const raiseTo = (ready: Minute) => {
      raise({ ...teller.bound, ready, kind: 'search' });
    };
    const exact = new Exact(bench, steps, poll, raiseTo, shaving);
    bench.asides.push(exact);
    teller.steps = () => exact.steps;
  }
  if (other) bench.offered = () => teller.news(other);
  searchOn(bench, net, seed);
  if (bench.best.changes > 0) bench.keepPostings();
  const spent: Spent = { schedules: bench.passes, steps: teller.steps() };
  return { kind: 'plan', plan: planOf(bench.model, bench.best, teller.bound, spent) };
}

/** Hands on what the search finds, to whoever listens and to the other search. */
class Teller {
  #bench: Bench | null = null;
  /** The newest plan that is still to be told, or null. */
  #kept: Kept | null = null;
  /** Steps that the branch search has taken. */
  steps: () => number = () => 0;

  constructor(
    public bound: Bound,
    readonly options: SolveOptions,
  ) {}

  /** From now on plans are told, this one first. */
  begin(bench: Bench, first: Kept): void {
    this.#bench = bench;
    bench.bound = this.bound.ready;
    this.hear(first);
  }

  hear(kept: Kept): void {
    if (this.#bench === null) return;
    this.#kept = kept;
    this.options.other?.better(kept);
    this.tell();
  }

  tell(): void {
    const { onBetter, isListening } = this.options;
    if (this.#kept === null || this.#bench === null || !onBetter) return;
    if (isListening && !isListening()) return;
    const kept = this.#kept;
    this.#kept = null;
    const schedules = this.#bench.passes;
    const spent: Spent = { schedules, steps: this.steps() };
    const bound = this.bound.ready;
    onBetter(planOf(this.#bench.model, kept, this.bound, spent), { schedules, ready: kept.ready, bound });
  }

  raise(bound: Bound): void {
    if (this.#take(bound)) this.options.other?.bound(bound);
  }

  #take(bound: Bound): boolean {
    if (this.#bench === null || bound.ready <= this.bound.ready) return false;
    this.bound = bound;
    this.#bench.bound = bound.ready;
    return true;
  }

  news(other: OtherSearch): Drawn | null {
    const { drawn, bound } = other.news();
    if (bound !== null) this.#take(bound);
    return drawn;
  }
}

/**
 * The critical path at the pace that no crew can beat, set-up left out: next to nothing to compute. A link that ends
 * work done in one go says nothing here: a leaner crew that ends at the same minute starts sooner, and so may what
 * waits for its start.
 */
function criticalPath(problem: Problem): Bound {
  const isTied = (i: number) => problem.tasks[i].oneGo && problem.tasks[i].effort.kind === 'work';
  const links = problem.links.filter((link) => !(link.relation.endsWith('to-finish') && isTied(link.after)));
  const lengths = new Lengths(problem, new WorkCalendar(problem.turnouts));
  problem.tasks.forEach((task, i) => (lengths.minutes[i] = minutesOf(task, task.crew.max, 'fastest')));
  lengths.setUp.fill(0);
  const ready = new NetworkPass({ ...problem, links }, lengths).forward();
  return { ready, kind: 'critical path', bottleneck: null };
}

/** Lists at random that are drawn before it is said that there is no plan. */
const TRIES = 40;

/** No plan was found, though each task could be done: by deletion, what has to give way, else what was found by rule. */
function inTheYard(problem: Problem, found: Wish[], seed: number): Outcome {
  const hasPlan = (other: Problem) => {
    const net = network(other);
    if (net.kind === 'circle') return false;
    const bench = new Bench(
      other,
      {},
      Infinity,
      () => false,
      () => undefined,
    );
    if (hopeless(bench.model).length > 0 || !bench.forward.possible) return false;
    firstPlans(bench, net, true);
    if (bench.best === null) anyPlan(bench, net, seed, TRIES);
    return bench.best !== null;
  };
  return { kind: 'no plan', ...conflictsOfYard(problem, found, hasPlan) };
}

function noPlan(wishes: Wish[]): Outcome {
  return { kind: 'no plan', wishes };
}

/** No order was found in which everything can be opened and shut again: the limits that bind, with what they stop. */
function shutIn(problem: Problem): Wish[] {
  return problem.openingLimits.flatMap((limit, index): Wish[] => {
    const openers = problem.tasks.flatMap((task, i) =>
      task.progress.kind === 'waiting' && task.opens.some((e) => limit.elements.includes(e)) ? [i] : [],
    );
    const binds = limit.elements.length > limit.atMost;
    return binds && openers.length > 0 ? [{ kind: 'opening', task: openers[0], limit: index }] : [];
  });
}

function stuckAt(bench: Bench, problem: Problem): Wish[] {
  const { stuck } = bench;
  if (stuck === null) return [];
  if (stuck.why === 'room') return [{ kind: 'horizon', task: stuck.task }];
  return problem.posted.flatMap((one, posting): Wish[] =>
    one.firm && one.task === stuck.task ? [{ kind: 'posting', posting }] : [],
  );
}
