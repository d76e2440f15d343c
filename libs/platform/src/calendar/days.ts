import { Temporal } from 'temporal-polyfill';

/** Days of the calendar as text 'YYYY-MM-DD' (ISO 8601). A text that is no such day is a RangeError. */

const dayShape = /^\d{4}-\d{2}-\d{2}$/;

export function dayOf(day: string): Temporal.PlainDate {
  if (!dayShape.test(day)) throw new RangeError(`"${day}" is not a day; write it as 2027-03-06`);
  return Temporal.PlainDate.from(day);
}

/** The last day that anybody may enter: one beyond it is a slip of the pen, or stands for "never". */
export const lastDay = '2199-12-31';

/** True for a day that exists, written 'YYYY-MM-DD'. */
export function isDay(text: string): boolean {
  try {
    dayOf(text);
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

/** The day n days later, or earlier when n is negative. */
export function addDays(day: string, n: number): string {
  return dayOf(day).add({ days: n }).toString();
}

/** Whole days from one day to another; negative when the second is the earlier. */
export function daysBetween(from: string, to: string): number {
  return dayOf(from).until(dayOf(to), { largestUnit: 'days' }).days;
}

/** Day of the week as in ISO 8601: 1 is Monday, 7 is Sunday. */
export function weekdayOf(day: string): number {
  return dayOf(day).dayOfWeek;
}

/** Week of a day as in ISO 8601, whose year may differ from the calendar's: 2027-01-01 is in week 53 of 2026. */
export function isoWeek(day: string): { year: number; week: number } {
  const { yearOfWeek, weekOfYear } = dayOf(day);
  if (yearOfWeek === undefined || weekOfYear === undefined) throw new RangeError(`"${day}" has no ISO week`);
  return { year: yearOfWeek, week: weekOfYear };
}

/** The Monday of the week that a day is in. */
export function startOfWeek(day: string): string {
  return addDays(day, 1 - weekdayOf(day));
}
