import { idKind, isDay } from '@ribband/platform';
import { z } from 'zod';

/** The leaves of which each room's part of a yard document is made. */

/** A text whose faults say what would be right. */
export const text = (test: (value: string) => boolean, message: string, wouldBeRight: string): z.ZodString =>
  z.string().refine(test, { error: message, params: { wouldBeRight } });

export const words = text(
  (v) => v.trim().length > 0 && v.length <= 2000,
  'is empty or too long',
  'one to 2000 characters',
);
export const ref = text(
  (v) => /^[a-z0-9]+(-[a-z0-9]+)*$/.test(v) && v.length <= 100,
  'is not a ref',
  'small letters, digits and single hyphens, such as frame-12-draw-futtocks',
);
export const day = text(isDay, 'is not a day of the calendar', 'a day such as 2027-03-06');
export const time = text(
  (v) => /^([01]\d|2[0-3]):[0-5]\d$/.test(v),
  'is not a time of day',
  'hours and minutes such as 09:30',
);
/** Exact, for what was noted by a clock and not by a calendar. */
export const moment = text(isMoment, 'is not a moment', 'a moment in UTC such as 2027-03-06T17:00:00.000Z');
export const email = text(
  (v) => v.length <= 254 && /^[^\s@]+@[^\s@]+\.[^\s@]+$/.test(v),
  'is not an e-mail address',
  'an address such as name@example.org',
);
/** An id that a document keeps because something frozen names it. */
export const idOf = (kind: string): z.ZodString =>
  text((v) => idKind(v) === kind, 'is not an id', `as it was taken out, ${kind}_ in front`);

export const whole = z.int();
export const list = <T extends z.ZodType>(item: T, most = 5000): z.ZodArray<T> => z.array(item).max(most);

/** Who did something, and when exactly; null: nobody yet. */
export const byAt = z.strictObject({ at: moment, by: words }).nullable();

/** Epoch milliseconds as a document writes them, and back. */
export const toMoment = (at: number): string => new Date(at).toISOString();
export const fromMoment = (written: string): number => Date.parse(written);

/** A pair of columns as one part of a document, and back. */
export const asByAt = (at: number | null, by: string | null): { at: string; by: string } | null =>
  at === null ? null : { at: toMoment(at), by: by ?? '' };

function isMoment(value: string): boolean {
  const instant = new Date(value);
  return !Number.isNaN(instant.getTime()) && instant.toISOString() === value;
}
