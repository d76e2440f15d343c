import { localToInstant, refuse } from '@ribband/platform';

/** The instants of a turnout's local hours. @throws RefusalError when it would end before it starts */
export function turnoutTimes(
  timeZone: string,
  turnout: { on: string; startTime: string; endTime: string },
): { startsAt: number; endsAt: number } {
  const startsAt = localToInstant(turnout.on, turnout.startTime, timeZone);
  const endsAt = localToInstant(turnout.on, turnout.endTime, timeZone);
  if (endsAt <= startsAt)
    refuse('BAD_INPUT', 'A turnout ends after it starts, on the same day.', {
      field: 'endTime',
      remedy: `Choose a time after ${turnout.startTime}.`,
    });
  return { startsAt, endsAt };
}
