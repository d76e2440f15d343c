import { isDay, refuse } from '@ribband/platform';
import { wordsOf, wordsOrNull } from '../words.js';

/** Values as people say them: each is checked, and refused with the field's name and what would be right. */

/** Words that must be there. */
export const said = (field: string, value: string, most = 200): string =>
  wordsOf(value, field, most, 'What is said here');

/** Words that may be left out. */
export const saidOrNone = (field: string, value: string | null | undefined, most = 1000): string | null =>
  wordsOrNull(value, field, most, 'What is said here');

export function saidDay(field: string, value: string): string {
  if (!isDay(value))
    refuse('BAD_INPUT', `"${value}" is not a day.`, { field, remedy: 'A day such as 2027-04-03.' });
  return value;
}

export const saidDayOrNone = (field: string, value: string | null | undefined): string | null =>
  value === null || value === undefined ? null : saidDay(field, value);

/** "17 April 2027". */
export const dayInWords = (day: string): string =>
  new Date(`${day}T12:00:00Z`).toLocaleDateString('en-GB', {
    day: 'numeric',
    month: 'long',
    year: 'numeric',
    timeZone: 'UTC',
  });

/** A day that has come. */
export function saidPast(field: string, value: string, today: string): string {
  const day = saidDay(field, value);
  if (day > today)
    refuse('BAD_INPUT', `${day} is still to come.`, { field, remedy: `Choose ${today} or an earlier day.` });
  return day;
}

export function saidNumber(field: string, value: number, least: number, most: number, unit: string): number {
  if (!(value >= least && value <= most))
    refuse('BAD_INPUT', `${value} is out of range.`, { field, remedy: `From ${least} to ${most} ${unit}.` });
  return value;
}
