import { z } from 'zod';

/** How planning goes about it in this process. */
export class PlanningSettings {
  constructor(
    /** Seconds that a search may take unless it is asked for with another number. */
    readonly seconds: number,
  ) {}

  /** @throws when PLAN_SECONDS is no number of seconds */
  static read(environment: Record<string, string | undefined>): PlanningSettings {
    const read = seconds.safeParse(environment['PLAN_SECONDS'] || undefined);
    if (!read.success) throw new Error('PLAN_SECONDS must be a number of seconds from 0.1 to 600');
    return new PlanningSettings(read.data);
  }
}

const seconds = z.coerce.number().min(0.1).max(600).default(4);
