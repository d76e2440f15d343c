import { addDays, checkTimeZone, instantToLocal, localToInstant } from '@ribband/platform';
import ICAL from 'ical.js';
import type { ComingException } from './availability.types.js';
import { type ContentLine, icsFault, type IcsFault, unfold } from './ics-lines.js';

/** What a calendar file says of when somebody is busy. */
export interface BusyDays {
  /** Days and hours away, in order of time; what touches is joined. */
  exceptions: ComingException[];
  /** Events that were read, and those passed over because they are cancelled or do not make busy. */
  read: number;
  passedOver: number;
}

export const mostBytes = 512 * 1024;
const mostEvents = 5_000;
/** Steps of all recurrences together: a rule by the second must not hold up the server. */
const mostSteps = 50_000;
const mostExceptions = 400;

interface Span {
  from: number;
  to: number;
}

/**
 * Reads an .ics file (RFC 5545): events that make busy become days away. All-day events are whole days; recurrences,
 * their exceptions and moved instances are laid out; times without a zone are the yard's.
 *
 * @param firstDay local day from which it is of interest, to `lastDay`, both included
 */
export function readIcs(
  text: string,
  timeZone: string,
  firstDay: string,
  lastDay: string,
): BusyDays | { fault: IcsFault } {
  const found = readSpans(text, timeZone, firstDay, lastDay, makesBusy);
  if ('fault' in found) return found;
  const { read, passedOver } = found;
  const exceptions = joined(found.spans).flatMap((span) => daysAway(span, timeZone));
  return tooMany(exceptions.length) ?? { exceptions, read, passedOver };
}

/** A holiday of a calendar file: whole days, both ends included. */
export interface Holiday {
  fromOn: string;
  toOn: string;
  /** What the event is called, '' for nothing. */
  name: string;
}

/**
 * Reads the whole days of an .ics file with what they are called, whether or not they make anybody busy; parameters as
 * for `readIcs`. What takes hours only is passed over.
 */
export function readHolidays(
  text: string,
  timeZone: string,
  firstDay: string,
  lastDay: string,
): { holidays: Holiday[] } | { fault: IcsFault } {
  const found = readSpans(text, timeZone, firstDay, lastDay, isHeld);
  if ('fault' in found) return found;
  const holidays = found.spans
    .flatMap(({ name, ...span }) =>
      daysAway(span, timeZone).flatMap(({ fromOn, toOn, from, to }): Holiday[] =>
        from === null && to === null ? [{ fromOn, toOn, name }] : [],
      ),
    )
    .sort((a, b) => a.fromOn.localeCompare(b.fromOn) || a.toOn.localeCompare(b.toOn));
  return tooMany(holidays.length) ?? { holidays };
}

const tooMany = (entries: number): { fault: IcsFault } | null =>
  entries > mostExceptions
    ? { fault: { line: 1, message: `It would be ${entries} entries, more than ${mostExceptions}` } }
    : null;

/** The spans of the events that count, each with its summary. */
function readSpans(
  text: string,
  timeZone: string,
  firstDay: string,
  lastDay: string,
  counts: (event: ICAL.Component) => boolean,
): { spans: (Span & { name: string })[]; read: number; passedOver: number } | { fault: IcsFault } {
  if (Buffer.byteLength(text) > mostBytes)
    return { fault: { line: 1, message: `The file is larger than ${mostBytes / 1024} kilobytes` } };
  const lines = unfold(text);
  const fault = icsFault(lines);
  if (fault) return { fault };
  const parsed = parse(text, lines);
  if ('fault' in parsed) return parsed;
  const calendar = new ICAL.Component(parsed.jcal);
  const events = calendar.getAllSubcomponents('vevent');
  if (events.length > mostEvents)
    return { fault: { line: 1, message: `The file has more than ${mostEvents} events` } };
  const beginnings = lines.filter((line) => /^BEGIN:VEVENT$/i.test(line.text)).map((line) => line.number);
  const window: Span = {
    from: localToInstant(firstDay, '00:00', timeZone),
    to: localToInstant(addDays(lastDay, 1), '00:00', timeZone),
  };
  const reader = new EventReader(calendar, timeZone, window);
  const spans: (Span & { name: string })[] = [];
  let passedOver = 0;
  for (const [at, event] of events.entries()) {
    if (!counts(event)) {
      passedOver += 1;
      continue;
    }
    const name = said(event, 'summary').trim();
    try {
      spans.push(...reader.spansOf(event, events).map((span) => ({ ...span, name })));
    } catch (error) {
      // The library says what it could not make sense of; we say where it stands.
      if (!(error instanceof Error)) throw error;
      return { fault: { line: beginnings[at] ?? 1, message: `This event cannot be read: ${error.message}` } };
    }
  }
  return { spans, read: events.length - passedOver, passedOver };
}

/** The library's own reading; what it cannot read is looked for line by line, so that the line can be named. */
function parse(text: string, lines: readonly ContentLine[]): { jcal: unknown[] } | { fault: IcsFault } {
  const attempt = (whole: string): { jcal: unknown[] } | { message: string } => {
    try {
      return { jcal: ICAL.parse(whole) as unknown[] };
    } catch (error) {
      if (error instanceof Error) return { message: error.message };
      throw error;
    }
  };
  const whole = attempt(text);
  if ('jcal' in whole) return whole;
  const bad = lines.find((line) => {
    if (/^(BEGIN|END):/i.test(line.text)) return false;
    return 'message' in attempt(`BEGIN:VEVENT\r\n${line.text}\r\nEND:VEVENT`);
  });
  return { fault: { line: bad?.number ?? 1, message: `It cannot be read: ${whole.message}` } };
}

const said = (event: ICAL.Component, name: string): string => String(event.getFirstPropertyValue(name) ?? '');

const isHeld = (event: ICAL.Component): boolean => said(event, 'status').toUpperCase() !== 'CANCELLED';

const makesBusy = (event: ICAL.Component): boolean =>
  isHeld(event) && said(event, 'transp').toUpperCase() !== 'TRANSPARENT';

class EventReader {
  private readonly zones: Map<string, ICAL.Timezone>;
  private steps = 0;

  constructor(
    calendar: ICAL.Component,
    private readonly timeZone: string,
    private readonly window: Span,
  ) {
    const parts = calendar.getAllSubcomponents('vtimezone').map((part) => new ICAL.Timezone(part));
    this.zones = new Map(parts.map((zone) => [zone.tzid, zone]));
  }

  spansOf(part: ICAL.Component, all: readonly ICAL.Component[]): Span[] {
    const event = new ICAL.Event(part);
    if (!(event.startDate as ICAL.Time | null)) throw new Error('it has no start');
    const tzid = tzidOf(part);
    if (event.isRecurrenceException() || !event.isRecurring())
      return this.within([this.span(event.startDate, event.endDate, tzid)]);
    const moved = new Set(
      all
        .filter((other) => other.getFirstPropertyValue('uid') === event.uid)
        .flatMap((other) => other.getFirstPropertyValue('recurrence-id')?.toString() ?? []),
    );
    const spans: Span[] = [];
    const iterator = event.iterator();
    for (let next = iterator.next() as ICAL.Time | null; next; next = iterator.next() as ICAL.Time | null) {
      this.steps += 1;
      if (this.steps > mostSteps) throw new Error('it comes back too often');
      const end = next.clone();
      end.addDuration(event.duration);
      const span = this.span(next, end, tzid);
      if (span.from >= this.window.to) break;
      if (!moved.has(next.toString())) spans.push(span);
    }
    return this.within(spans);
  }

  private within(spans: Span[]): Span[] {
    return spans
      .map(({ from, to }) => ({ from: Math.max(from, this.window.from), to: Math.min(to, this.window.to) }))
      .filter(({ from, to }) => from < to);
  }

  private span(start: ICAL.Time, end: ICAL.Time, tzid: string | null): Span {
    const from = this.instant(start, tzid);
    // An all-day event without an end is that day (section 3.6.1).
    const to = start.isDate && end.compare(start) <= 0 ? from + 1 : this.instant(end, tzid);
    return start.isDate && to === from + 1
      ? { from, to: localToInstant(addDays(dayOf(start), 1), '00:00', this.timeZone) }
      : { from, to };
  }

  /** Days are the yard's; a zone with a name that is known is read by the clocks themselves, another by the file. */
  private instant(time: ICAL.Time, tzid: string | null): number {
    if (time.isDate) return localToInstant(dayOf(time), '00:00', this.timeZone);
    if (time.zone === ICAL.Timezone.utcTimezone) return time.toUnixTime() * 1000;
    if (tzid === null) return localToInstant(dayOf(time), timeOf(time), this.timeZone);
    if (checkTimeZone(tzid) === null) return localToInstant(dayOf(time), timeOf(time), tzid);
    const zone = this.zones.get(tzid);
    if (!zone) throw new Error(`the time zone "${tzid}" is not known and not in the file`);
    const local = time.clone();
    local.zone = zone;
    return local.toUnixTime() * 1000;
  }
}

const two = (value: number): string => String(value).padStart(2, '0');
const dayOf = ({ year, month, day }: ICAL.Time): string =>
  `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
const timeOf = ({ hour, minute }: ICAL.Time): string => `${two(hour)}:${two(minute)}`;

function tzidOf(part: ICAL.Component): string | null {
  const tzid = part.getFirstProperty('dtstart')?.getFirstParameter('tzid');
  return tzid ? tzid : null;
}

function joined(spans: readonly Span[]): Span[] {
  const result: Span[] = [];
  for (const span of [...spans].sort((a, b) => a.from - b.from)) {
    const last = result.at(-1);
    if (last && span.from <= last.to) last.to = Math.max(last.to, span.to);
    else result.push({ ...span });
  }
  return result;
}

/** A span as whole days with what hangs over at its ends. */
function daysAway(span: Span, timeZone: string): ComingException[] {
  const start = instantToLocal(span.from, timeZone);
  const end = instantToLocal(span.to, timeZone);
  const away = (fromOn: string, toOn: string, from: string | null, to: string | null): ComingException => ({
    fromOn,
    toOn,
    canCome: false,
    from,
    to,
  });
  if (start.day === end.day) {
    // Seconds are cut off: an event of less than a minute keeps nobody away.
    return start.time === end.time ? [] : [away(start.day, start.day, start.time, end.time)];
  }
  const firstWhole = start.time === '00:00' ? start.day : addDays(start.day, 1);
  const lastWhole = addDays(end.day, -1);
  return [
    ...(start.time === '00:00' ? [] : [away(start.day, start.day, start.time, null)]),
    ...(firstWhole <= lastWhole ? [away(firstWhole, lastWhole, null, null)] : []),
    ...(end.time === '00:00' ? [] : [away(end.day, end.day, null, end.time)]),
  ];
}
