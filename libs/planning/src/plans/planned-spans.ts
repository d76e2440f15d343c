import type { PlannedSpans } from '@ribband/repair';
import type { ToldPlan } from './told-plan.js';

/** When each task begins and ends by a plan, by the task's id. Empty where no plan exists. */
export const plannedSpans = (told: ToldPlan): PlannedSpans =>
  new Map(
    (told.plan?.tasks ?? []).map(({ start, end }, index) => [
      told.taskId(index),
      {
        startsAt: told.instant(start),
        endsAt: told.instant(end),
        isOnLaunchChain: told.plan?.launchChain.some((knot) => knot.task === index) ?? false,
      },
    ]),
  );
