import { addDays, localToInstant, startOfWeek } from '@ribband/platform';
import type { ToldPlan } from '../plans/told-plan.js';

/** The first minutes of the yard's weeks, from the Monday before now until the last turnout: the engine knows no days. */
export function weekStarts(told: Pick<ToldPlan, 'problem' | 'input' | 'instant' | 'days'>): number[] {
  const { problem, input } = told;
  const last = problem.turnouts.at(-1)?.start ?? problem.now;
  const starts: number[] = [];
  let monday = startOfWeek(told.days.dayOf(told.instant(problem.now)));
  for (;;) {
    const start = Math.round((localToInstant(monday, '00:00', input.timeZone) - input.epochAt) / 60_000);
    if (start > last) return starts;
    starts.push(start);
    monday = addDays(monday, 7);
  }
}
