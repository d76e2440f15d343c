/** Days and hours as they are said in the yard. Days are 'YYYY-MM-DD', instants RFC 3339. */

const monthNames = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];
const dayNames = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'];
const millisecondsADay = 86_400_000;

function noon(day: string): Date {
  return new Date(`${day}T12:00:00Z`);
}

export function weekdayOf(day: string): string {
  return dayNames[noon(day).getUTCDay()] ?? '';
}

/** "Saturday 16 October", or with the year when it is not the year of `near`. */
export function sayDay(day: string, near?: string): string {
  return `${weekdayOf(day)} ${sayShortDay(day, near)}`;
}

/** "16 October", or with the year when it is not the year of `near`. */
export function sayShortDay(day: string, near?: string): string {
  const date = noon(day);
  const year = near !== undefined && near.slice(0, 4) !== day.slice(0, 4) ? ` ${day.slice(0, 4)}` : '';
  return `${date.getUTCDate()} ${monthNames[date.getUTCMonth()]}${year}`;
}

export function monthOf(day: string): string {
  return monthNames[noon(day).getUTCMonth()] ?? '';
}

export function addDays(day: string, days: number): string {
  return new Date(noon(day).getTime() + days * millisecondsADay).toISOString().slice(0, 10);
}

/** Whole days from the first to the second; negative when the second comes before. */
export function daysBetween(from: string, to: string): number {
  return Math.round((noon(to).getTime() - noon(from).getTime()) / millisecondsADay);
}

/** The Monday on or before a day. */
export function mondayOf(day: string): string {
  return addDays(day, -((noon(day).getUTCDay() + 6) % 7));
}

/** The day in the yard's zone on which an instant falls. */
export function dayOf(instant: string, timeZone: string): string {
  const parts = new Intl.DateTimeFormat('en-CA', {
    timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  }).formatToParts(new Date(instant));
  const part = (type: string) => parts.find((each) => each.type === type)?.value ?? '';
  return `${part('year')}-${part('month')}-${part('day')}`;
}

/** "14:30" in the yard's zone. */
export function timeOf(instant: string, timeZone: string): string {
  return new Intl.DateTimeFormat('en-GB', {
    timeZone,
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  }).format(new Date(instant));
}

/** "Wednesday 10 March, 09:00 to 11:30", both days when they differ, the day alone for a moment. */
export function saySpan(startsAt: string, endsAt: string, timeZone: string): string {
  const from = dayOf(startsAt, timeZone);
  const to = dayOf(endsAt, timeZone);
  if (startsAt === endsAt) return sayDay(from);
  if (from === to) return `${sayDay(from)}, ${timeOf(startsAt, timeZone)} to ${timeOf(endsAt, timeZone)}`;
  return `${sayDay(from)} to ${sayDay(to)}`;
}

/** "today", "tomorrow", "in 3 days", "yesterday", "3 days ago" */
export function sayDistance(day: string, today: string): string {
  const days = daysBetween(today, day);
  if (days === 0) return 'today';
  if (days === 1) return 'tomorrow';
  if (days === -1) return 'yesterday';
  return days > 0 ? `in ${days} days` : `${-days} days ago`;
}
