import { timeOf } from '../words/dates.js';

/** "7 h 30" of minutes, "−1 h" of an adjustment. */
export function sayHours(minutes: number): string {
  const whole = Math.floor(Math.abs(minutes) / 60);
  const rest = Math.abs(minutes) % 60;
  const words =
    rest === 0
      ? `${whole.toLocaleString('en')} h`
      : `${whole.toLocaleString('en')} h ${String(rest).padStart(2, '0')}`;
  return minutes < 0 ? `−${words}` : words;
}

/** "$1,234.50" of cents. */
export function sayMoney(cents: number): string {
  const text = (Math.abs(cents) / 100).toLocaleString('en', {
    minimumFractionDigits: 2,
    maximumFractionDigits: 2,
  });
  return cents < 0 ? `−$${text}` : `$${text}`;
}

/** "09:00 to 11:30", "since 09:00", or nothing for an adjustment. */
export function sayTimes(
  span: { startsAt?: string | null; endsAt?: string | null },
  timeZone: string,
): string {
  if (!span.startsAt) return '';
  const from = timeOf(span.startsAt, timeZone);
  return span.endsAt ? `${from} to ${timeOf(span.endsAt, timeZone)}` : `since ${from}`;
}

/** The minutes of entries together; who is still signed on counts nothing yet. */
export const totalMinutes = (entries: readonly { minutes?: number | null }[]): number =>
  entries.reduce((sum, entry) => sum + (entry.minutes ?? 0), 0);
