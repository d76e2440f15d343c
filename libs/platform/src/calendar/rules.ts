import { RRuleTemporal } from 'rrule-temporal';
import { Temporal } from 'temporal-polyfill';
import { addDays, dayOf } from './days.js';
import { ruleWordingFault } from './rule-grammar.js';
import { localToInstant } from './zones.js';

/** A recurrence at the yard: RFC 5545 rule text (without DTSTART) with the local day and time that it starts from. */
export interface Recurrence {
  rule: string;
  startsOn: string;
  /** Local time of day of every occurrence, 'HH:MM'. */
  startTime: string;
  timeZone: string;
  /** Last local day on which it may occur, this day included; absent or null: no end but the rule's own. */
  untilOn?: string | null;
}

/** The longest span that one call expands, and how far ahead a rule must occur to be taken as one that occurs. */
export const longestExpansionYears = 40;

/** One more than the days of the longest span, so that the library's own stop is never met first. */
const mostSteps = 15_000;

/**
 * The library expands on a clock that never changes; only then is each local time laid on the yard's zone. So a
 * turnout whose start falls into the gap of a clock change is held an hour later and not lost (RFC 5545, 3.3.5).
 */
const unchangingClock = 'UTC';

function unchanging(day: string, time: string): Temporal.ZonedDateTime {
  return dayOf(day).toZonedDateTime({ timeZone: unchangingClock, plainTime: time });
}

interface ReadRule {
  /** The rule on the clock that never changes; its own UNTIL is widened by a day, `until` holds the exact one. */
  days: RRuleTemporal;
  /** The rule's own UNTIL, epoch milliseconds. */
  until: number;
}

/** Reads a rule whose wording is known to be sound. Parts that may not stand together are a RangeError. */
function readRule(rule: string, startsOn: string, startTime: string, timeZone: string): ReadRule {
  const dtstart = unchanging(startsOn, startTime);
  const options = { rruleString: rule, dtstart, strict: true, maxIterations: mostSteps, temporal: Temporal };
  let days: RRuleTemporal;
  try {
    days = new RRuleTemporal(options);
  } catch (error) {
    throw new RangeError(error instanceof Error ? error.message : String(error), { cause: error });
  }
  const until = days.options().until;
  if (!until) return { days, until: Infinity };
  const localUntil = until.withTimeZone(timeZone).toPlainDateTime().add({ days: 1 });
  return {
    days: days.with({ until: localUntil.toZonedDateTime(unchangingClock) }),
    until: until.epochMilliseconds,
  };
}

/** Starts on local days from `firstDay` to `lastDay`, both included, in epoch milliseconds, ascending. */
function startsBetween(read: ReadRule, recurrence: Recurrence, firstDay: string, lastDay: string): number[] {
  const { startTime, timeZone } = recurrence;
  const starts: number[] = [];
  for (const date of read.days.between(
    unchanging(firstDay, startTime),
    unchanging(lastDay, startTime),
    true,
  )) {
    const start = localToInstant(date.toPlainDate().toString(), startTime, timeZone);
    // A day that a zone skipped altogether falls onto the next one and must not count twice.
    if (start <= read.until && start !== starts.at(-1)) starts.push(start);
  }
  return starts;
}

const earlier = (a: string, b: string): string => (a < b ? a : b);
const later = (a: string, b: string): string => (a > b ? a : b);
const localDay = (instant: number, timeZone: string): string =>
  Temporal.Instant.fromEpochMilliseconds(instant).toZonedDateTimeISO(timeZone).toPlainDate().toString();

/**
 * The starts of a recurrence from `fromInstant` to before `toInstant`, in epoch milliseconds, ascending.
 * DTSTART itself counts only where it fits the rule. A faulty rule or a span of more than 40 years is a RangeError:
 * ask `checkRule` at the door.
 */
export function expandRule(recurrence: Recurrence, fromInstant: number, toInstant: number): number[] {
  const { rule, startsOn, startTime, timeZone, untilOn } = recurrence;
  const wording = ruleWordingFault(rule);
  if (wording) throw new RangeError(wording);
  if (toInstant <= fromInstant) return [];
  const firstDay = later(startsOn, localDay(fromInstant, timeZone));
  const lastDay = earlier(localDay(toInstant, timeZone), untilOn ?? '9999-12-31');
  if (lastDay < firstDay) return [];
  if (lastDay > lastDayOfSpan(firstDay))
    throw new RangeError(`a rule can be laid out over ${longestExpansionYears} years at most`);
  const read = readRule(rule, startsOn, startTime, timeZone);
  return startsBetween(read, recurrence, firstDay, lastDay).filter(
    (start) => start >= fromInstant && start < toInstant,
  );
}

function lastDayOfSpan(firstDay: string): string {
  return dayOf(firstDay).add({ years: longestExpansionYears }).toString();
}

/**
 * What is wrong with a rule and what would be right, or null when it can be read and occurs at least once within 40
 * years of its start (and no later than `untilOn`). Days and zone must be sound already.
 */
export function checkRule(
  rule: string,
  startsOn: string,
  timeZone: string,
  untilOn?: string | null,
): string | null {
  const wording = ruleWordingFault(rule);
  if (wording) return wording;
  // Noon exists on every day in every zone, so whether the rule occurs does not hang on a clock change.
  const recurrence = { rule, startsOn, startTime: '12:00', timeZone };
  let read: ReadRule;
  try {
    read = readRule(rule, startsOn, recurrence.startTime, timeZone);
  } catch (error) {
    if (error instanceof RangeError) return `the rule cannot be read: ${error.message}`;
    throw error;
  }
  if (untilOn && untilOn < startsOn)
    return `the rule never occurs: it starts on ${startsOn} and ends on ${untilOn}; the end must not be before the start`;
  const end = untilOn ?? lastDayOfSpan(startsOn);
  // Almost every rule occurs within two years; only an odd one costs the long look.
  for (const last of [earlier(addDays(startsOn, 731), end), earlier(lastDayOfSpan(startsOn), end)])
    if (startsBetween(read, recurrence, startsOn, last).length > 0) return null;
  return `the rule never occurs: no day from ${startsOn} to ${earlier(lastDayOfSpan(startsOn), end)} fits it; name a day that the calendar has`;
}
