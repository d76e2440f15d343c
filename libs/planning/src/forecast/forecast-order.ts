import type { Beliefs, Plan, Problem } from '@ribband/engine';

/** What a thread needs to live through the futures of a plan. */
export interface ForecastOrder {
  problem: Problem;
  tasks: Plan['tasks'];
  beliefs: Beliefs;
  seed: number;
  futures: number;
}
