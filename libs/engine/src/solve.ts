import { lowerBound } from './bounds/lower-bound.js';
import { WorkCalendar } from './calendar.js';
import { Lengths, minutesOf } from './lengths.js';
import { network, NetworkPass } from './network.js';
import type { Bound, Outcome, Plan, Wish } from './plan.js';
import { planOf, type Spent } from './plan-of.js';
import type { Minute, Problem } from './problem.js';
import { Bench } from './search/bench.js';
import { Exact } from './search/exact.js';
import { Shaving } from './search/shaving.js';
import { anyPlan, firstPlans, searchOn } from './search/search.js';
import { hopeless } from './wishes.js';

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
  shouldStop?: () => boolean;
  /** The plan in force: the search starts from its order, and its crews are kept where it costs nothing. */
  warm?: Plan;
  onBetter?: (plan: Plan, progress: Progress) => void;
}

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
  const { seed, shouldStop = () => false, warm, onBetter } = options;
  const budget = options.schedules ?? (options.shouldStop ? Infinity : 2000);
  // The first plan must not wait for a better bound than this one.
  let bound = criticalPath(problem);
  let exact: Exact | null = null;
  const spent = (): Spent => ({ schedules: bench.passes, steps: exact?.steps ?? 0 });
  const bench: Bench = new Bench(problem, { warm }, budget, shouldStop, (kept) => {
    onBetter?.(planOf(bench.model, kept, bound, spent()), {
      schedules: bench.passes,
      ready: kept.ready,
      bound: bound.ready,
    });
  });
  const wishes = hopeless(bench.model);
  if (wishes.length > 0) return noPlan(wishes);
  if (!bench.forward.possible) return noPlan(shutIn(problem));
  firstPlans(bench, net, true);
  if (bench.best === null) anyPlan(bench, net, seed, 40);
  if (bench.best === null) return noPlan(stuckAt(bench, problem));
  bound = lowerBound(problem, { upTo: bench.best.ready, shouldStop });
  bench.bound = bound.ready;
  firstPlans(bench, net, false);
  const steps = options.steps ?? (options.schedules === undefined && options.shouldStop ? Infinity : 0);
  if (steps > 0) {
    const raise = (higher: Bound) => {
      bound = higher;
      bench.bound = higher.ready;
    };
    const shaving = new Shaving(bench, () => bound, shouldStop, raise);
    const raiseTo = (ready: Minute) => {
      raise({ ...bound, ready, kind: 'search' });
    };
    exact = new Exact(bench, steps, shouldStop, raiseTo, shaving);
    bench.aside = exact;
  }
  searchOn(bench, net, seed);
  if (bench.best.changes > 0) bench.keepPostings();
  return { kind: 'plan', plan: planOf(bench.model, bench.best, bound, spent()) };
}

/** The critical path at the pace that no crew can beat, set-up left out: next to nothing to compute. */
function criticalPath(problem: Problem): Bound {
  const lengths = new Lengths(problem, new WorkCalendar(problem.turnouts));
  problem.tasks.forEach((task, i) => (lengths.minutes[i] = minutesOf(task, task.crew.max, 'fastest')));
  lengths.setUp.fill(0);
  return { ready: new NetworkPass(problem, lengths).forward(), kind: 'critical path', bottleneck: null };
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
