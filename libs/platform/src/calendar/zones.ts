import { Temporal } from 'temporal-polyfill';
import { dayOf } from './days.js';

/**
 * Local days and times at the yard against instants (epoch milliseconds).
 *
 * Where the clock is changed this follows RFC 5545, section 3.3.5: a local time that does not exist is read with the
 * offset before the gap, and one that comes twice means the first. That is what Temporal calls "compatible".
 */

const timeShape = /^([01]\d|2[0-3]):[0-5]\d$/;

/** True for a time of day written 'HH:MM' on a clock of 24 hours. */
export function isTime(text: string): boolean {
  return timeShape.test(text);
}

function localDateTime(day: string, time: string): Temporal.PlainDateTime {
  if (!isTime(time)) throw new RangeError(`"${time}" is not a time of day; write it as 09:00`);
  return dayOf(day).toPlainDateTime(time);
}

/** What is wrong with the name of a time zone, or null when it is one that knows its clock changes. */
export function checkTimeZone(zone: string): string | null {
  const wouldBeRight = 'name a zone of the IANA time zone database, such as America/Los_Angeles';
  if (/^[+-]/.test(zone)) return `"${zone}" is an offset and knows no clock change; ${wouldBeRight}`;
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone);
    return null;
  } catch (error) {
    if (error instanceof RangeError) return `"${zone}" is not a time zone; ${wouldBeRight}`;
    throw error;
  }
}

/**
 * The instant of a local day 'YYYY-MM-DD' and time 'HH:MM', in epoch milliseconds.
 * @param disambiguation 'later': of a time that comes twice the second
 */
export function localToInstant(
  day: string,
  time: string,
  zone: string,
  disambiguation: 'compatible' | 'later' = 'compatible',
): number {
  return localDateTime(day, time).toZonedDateTime(zone, { disambiguation }).epochMilliseconds;
}

/** The local day and time of an instant; seconds are cut off. */
export function instantToLocal(instant: number, zone: string): { day: string; time: string } {
  const local = Temporal.Instant.fromEpochMilliseconds(instant).toZonedDateTimeISO(zone);
  return {
    day: local.toPlainDate().toString(),
    time: local.toPlainTime().toString({ smallestUnit: 'minute' }),
  };
}

/** The instant in RFC 3339 with Z, as it is shown in interfaces. */
export function instantToText(instant: number): string {
  return Temporal.Instant.fromEpochMilliseconds(instant).toString();
}

/** Reads an RFC 3339 date-time with Z or an offset. A leap second counts as the second before it. */
export function textToInstant(text: string): number {
  return Temporal.Instant.from(text).epochMilliseconds;
}
