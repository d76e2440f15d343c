import { addDays } from '../calendar/days.js';
import { instantToLocal, localToInstant } from '../calendar/zones.js';

/** Local times at the yard between which nobody is written to; the second may be on the next morning. */
export interface QuietTime {
  fromTime: string;
  toTime: string;
}

/** Common practice, no source. */
export const usualQuietTime: QuietTime = { fromTime: '21:00', toTime: '07:00' };

/** When a message that is ready at an instant may go out: at once, or when the quiet hours are over. */
export function afterQuietTime(now: number, { fromTime, toTime }: QuietTime, timeZone: string): number {
  if (fromTime === toTime) return now;
  const { day, time } = instantToLocal(now, timeZone);
  const isOverNight = fromTime > toTime;
  const isQuiet = isOverNight ? time >= fromTime || time < toTime : time >= fromTime && time < toTime;
  if (!isQuiet) return now;
  const endsOn = isOverNight && time >= fromTime ? addDays(day, 1) : day;
  // Where a clock change repeats the hour the end may lie behind already.
  return Math.max(now, localToInstant(endsOn, toTime, timeZone));
}
