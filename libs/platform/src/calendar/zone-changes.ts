import { Temporal } from 'temporal-polyfill';

/** One change of a zone's clocks. */
export interface ZoneChange {
  /** Local day and time on the clock before the change: 'YYYY-MM-DD' and 'HH:MM:SS'. */
  on: string;
  at: string;
  /** Offsets from UTC in minutes, before and after. */
  fromMinutes: number;
  toMinutes: number;
  /** Whether the clock is ahead of the zone's standard time afterwards. */
  isDaylight: boolean;
  /** What the zone calls the time afterwards, such as PDT. */
  name: string;
}

const minutesOf = (time: Temporal.ZonedDateTime): number => Math.round(time.offsetNanoseconds / 60e9);

function nameAt(instant: Temporal.Instant, zone: string): string {
  const parts = new Intl.DateTimeFormat('en-US', { timeZone: zone, timeZoneName: 'short' }).formatToParts(
    new Date(instant.epochMilliseconds),
  );
  return parts.find((part) => part.type === 'timeZoneName')?.value ?? zone;
}

/** The standard offset of the year that an instant is in: the smaller of winter's and summer's. */
function standardMinutes(time: Temporal.ZonedDateTime): number {
  const months = [1, 7].map((month) => time.with({ month, day: 1, hour: 12 }));
  return Math.min(...months.map(minutesOf));
}

/**
 * The offset that holds at an instant, as a change that began long before it, and every change from then until another
 * instant: all that a calendar needs to read the zone's local times in between.
 */
export function zoneChanges(zone: string, from: number, to: number): ZoneChange[] {
  const start = Temporal.Instant.fromEpochMilliseconds(from).toZonedDateTimeISO(zone);
  const told = (at: Temporal.ZonedDateTime, fromMinutes: number): ZoneChange => {
    const before = at.toPlainDateTime().add({ minutes: fromMinutes - minutesOf(at) });
    return {
      on: before.toPlainDate().toString(),
      at: before.toPlainTime().toString({ smallestUnit: 'second' }),
      fromMinutes,
      toMinutes: minutesOf(at),
      isDaylight: minutesOf(at) > standardMinutes(at),
      name: nameAt(at.toInstant(), zone),
    };
  };
  const before = start.getTimeZoneTransition('previous');
  const first = before ?? start.with({ month: 1, day: 1 }).startOfDay();
  const earlier = first.subtract({ seconds: 1 });
  const changes = [told(first, before ? minutesOf(earlier) : minutesOf(first))];
  let next = start.getTimeZoneTransition('next');
  while (next && next.epochMilliseconds <= to) {
    changes.push(told(next, minutesOf(next.subtract({ seconds: 1 }))));
    next = next.getTimeZoneTransition('next');
  }
  return changes;
}
