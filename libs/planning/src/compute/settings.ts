import { availableParallelism } from 'node:os';
import { z } from 'zod';

/** How planning goes about it in this process. */
export class PlanningSettings {
  constructor(
    /** Seconds that a search may take unless it is asked for with another number. */
    readonly seconds: number,
    /** Searches that go on at the same time for one plan, each in a thread of its own. */
    readonly threads = 1,
    /** Futures that a forecast lives through. */
    readonly futures = 10_000,
  ) {}

  /** @throws when PLAN_SECONDS is no number of seconds, PLAN_THREADS neither 1 nor 2, or FORECAST_FUTURES no number */
  static read(environment: Record<string, string | undefined>): PlanningSettings {
    const asked = seconds.safeParse(environment['PLAN_SECONDS'] || undefined);
    if (!asked.success) throw new Error('PLAN_SECONDS must be a number of seconds from 0.1 to 600');
    const split = threads.safeParse(environment['PLAN_THREADS'] || undefined);
    if (!split.success) throw new Error('PLAN_THREADS must be 1 or 2');
    const many = futures.safeParse(environment['FORECAST_FUTURES'] || undefined);
    if (!many.success) throw new Error('FORECAST_FUTURES must be a whole number from 100 to 100000');
    return new PlanningSettings(asked.data, split.data, many.data);
  }
}

const seconds = z.coerce.number().min(0.1).max(600).default(4);
/** Two where there are cores for it. */
const threads = z.coerce
  .number()
  .int()
  .min(1)
  .max(2)
  .default(() => Math.min(2, availableParallelism()));

const futures = z.coerce.number().int().min(100).max(100_000).default(10_000);
