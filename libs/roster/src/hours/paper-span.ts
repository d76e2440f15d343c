import { addDays, isDay, localToInstant, refuse } from '@ribband/platform';
import type { YardNow } from './hour.records.js';
import { refuseLength, refuseToCome } from './hour-rules.js';

/** The instants of a day's local times. @throws RefusalError BAD_INPUT naming the field */
export function spanOf(
  line: { on: string; from: string; to: string },
  yard: YardNow,
  path: string,
): { startsAt: number; endsAt: number } {
  if (!isDay(line.on))
    refuse('BAD_INPUT', `"${line.on}" is not a day.`, {
      field: `${path}on`,
      remedy: 'A day such as 2027-04-03.',
    });
  const startsAt = localToInstant(line.on, line.from, yard.zone);
  const endsOn = line.to > line.from ? line.on : addDays(line.on, 1);
  const endsAt = localToInstant(endsOn, line.to, yard.zone);
  if (line.to === line.from)
    refuse('BAD_INPUT', `${line.from} to ${line.to} is no time at all.`, {
      field: `${path}to`,
      remedy: 'Say when it ended.',
    });
  refuseToCome(endsAt, yard, `${path}to`);
  refuseLength(startsAt, endsAt, yard.zone, `${path}to`);
  return { startsAt, endsAt };
}
