import { type Outcome, type Plan, redraw, solve } from '@ribband/engine';
import type { Database } from '@ribband/platform';
import { PlanInputEntity } from '../plans/plan-input.entity.js';
import { type PlanInput, unsealed } from '../plans/plan-input.js';
import { PlanEntity } from '../plans/plan.entity.js';

export interface Replayed {
  kept: Plan;
  again: Plan;
  isSame: boolean;
}

/**
 * Computes a kept plan again from its kept input: drawn as it says that it was drawn, since two searches that help each
 * other never go the same way twice; where it does not say, searched for with as many passes and steps as it took.
 * @throws when there is no such plan, when its input was changed, or when it says that no plan exists
 */
export async function replay(database: Database, planId: string): Promise<Replayed> {
  const entity = await database.read.findOneBy(PlanEntity, { id: planId });
  if (!entity) throw new Error(`There is no plan ${planId}`);
  const kept = await database.read.findOneByOrFail(PlanInputEntity, { id: entity.inputId });
  const { outcome } = entity;
  if (outcome.kind !== 'plan')
    throw new Error(`${planId} says that no plan exists; there is nothing to compute`);
  const again = computed(unsealed(kept), outcome.plan);
  if (!again) throw new Error('The engine finds no plan now: it is another release of it');
  return { kept: outcome.plan, again, isSame: isSame(outcome.plan, again) };
}

function computed({ problem, seed, warm }: PlanInput, plan: Plan): Plan | null {
  if (plan.drawn) return redraw(problem, plan, warm ?? undefined);
  const { schedules, steps = 0 } = plan;
  const outcome: Outcome = solve(problem, { seed, schedules, steps, ...(warm ? { warm } : {}) });
  return outcome.kind === 'plan' ? outcome.plan : null;
}

/** The same work by the same people at the same minutes. */
function isSame(a: Plan, b: Plan): boolean {
  return JSON.stringify([a.ready, a.tasks, a.segments]) === JSON.stringify([b.ready, b.tasks, b.segments]);
}
