import type { Plan } from './plan.js';
import { planOf } from './plan-of.js';
import type { Problem } from './problem.js';
import { Bench } from './search/bench.js';

/**
 * Draws a plan of this problem once more, exactly as it says that it was drawn: the same work by the same people at the
 * same minutes, whichever search has found it. What it says of the bound is taken over.
 *
 * @param warm the plan that was in force when it was drawn
 * @returns null where it does not say how it was drawn, or can't be drawn so
 */
export function redraw(problem: Problem, plan: Plan, warm?: Plan): Plan | null {
  const bench = new Bench(
    problem,
    { warm },
    Infinity,
    () => false,
    () => undefined,
  );
  const kept = plan.drawn ? bench.redraw(plan.drawn) : null;
  return kept && planOf(bench.model, kept, plan.bound, { schedules: plan.schedules, steps: plan.steps ?? 0 });
}
