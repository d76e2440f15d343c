import { addDays } from '@ribband/platform';
import type { DatedSpecial } from '../turnouts/special-turnouts.js';
import { turnoutTimes } from '../turnouts/turnout-times.js';

/**
 * Watches one after the other without a gap, the last one as long as what is left. They go by the yard's clocks, as the
 * people do: in the night in which the clocks change one is an hour longer or shorter.
 * @param all minutes of all together; `each` minutes of one, less than a day
 */
export function layWatches(
  { on, startTime, all, each }: { on: string; startTime: string; all: number; each: number },
  timeZone: string,
): DatedSpecial[] {
  const first = minutesOf(startTime);
  const starts = Array.from({ length: Math.ceil(all / each) }, (_, i) => first + i * each);
  return starts.map((from) => {
    const to = Math.min(from + each, first + all);
    const heldOn = addDays(on, Math.floor(from / aDay));
    const times = { startTime: clockOf(from), endTime: clockOf(to) };
    return { heldOn, ...times, ...turnoutTimes(timeZone, { on: heldOn, ...times, kind: 'watch' }) };
  });
}

const aDay = 24 * 60;

const minutesOf = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));

const clockOf = (minutes: number): string =>
  [Math.floor((minutes % aDay) / 60), minutes % 60].map((part) => String(part).padStart(2, '0')).join(':');
