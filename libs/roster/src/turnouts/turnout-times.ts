import { addDays, localToInstant, refuse } from '@ribband/platform';
import type { TurnoutKind } from './turnout.entity.js';

/**
 * The instants of a turnout's local hours; a watch that ends no later than it starts ends on the next day.
 * @throws RefusalError when any other would end before it starts
 */
export function turnoutTimes(
  timeZone: string,
  turnout: { on: string; startTime: string; endTime: string; kind?: TurnoutKind | null | undefined },
): { startsAt: number; endsAt: number } {
  const { on, startTime, endTime, kind } = turnout;
  const isOverMidnight = kind === 'watch' && endTime <= startTime;
  const startsAt = localToInstant(on, startTime, timeZone);
  const endsAt = localToInstant(isOverMidnight ? addDays(on, 1) : on, endTime, timeZone);
  if (endsAt <= startsAt)
    refuse('BAD_INPUT', 'A turnout ends after it starts, on the same day.', {
      field: 'endTime',
      remedy: `Choose a time after ${startTime}.`,
    });
  return { startsAt, endsAt };
}
