import { localToInstant, newId, zoneChanges } from '@ribband/platform';
import fc from 'fast-check';
import ICAL from 'ical.js';
import { cancelledForMillis, type KnownEvent, settleEvents } from './events.js';
import type { ShownEvent } from './feed.entity.js';
import { uidOf, writeCalendar } from './write-calendar.js';

const zone = 'America/Los_Angeles';
const shown = (day: string, over: Partial<ShownEvent> = {}): ShownEvent => ({
  startsAt: localToInstant(day, '09:00', zone),
  endsAt: localToInstant(day, '14:00', zone),
  summary: 'Bung the sheer strake',
  description: '',
  location: 'Signe Holvang',
  status: 'CONFIRMED',
  ...over,
});
const event = (day: string, over: Partial<KnownEvent> = {}): KnownEvent => ({
  placeId: newId('place'),
  sequence: 0,
  shown: shown(day),
  changedAt: Date.UTC(2027, 2, 6),
  ...over,
});
const write = (events: KnownEvent[], timeZone = zone): string =>
  writeCalendar({ name: 'Anselm Druitt', timeZone, events });
const read = (text: string): ICAL.Component => new ICAL.Component(ICAL.parse(text) as unknown[]);

/** Starts of the events as another program reads them, with nothing but what stands in the file. */
function startsIn(text: string): number[] {
  const calendar = read(text);
  const zones = calendar.getAllSubcomponents('vtimezone').map((part) => new ICAL.Timezone(part));
  return calendar.getAllSubcomponents('vevent').map((part) => {
    const property = part.getFirstProperty('dtstart');
    const time = property?.getFirstValue() as ICAL.Time;
    time.zone = zones.find((one) => one.tzid === property?.getParameter('tzid')) as ICAL.Timezone;
    return time.toUnixTime() * 1000;
  });
}

describe('A calendar that people’s own programs read', () => {
  it('says nine in the morning before and after the clocks change, as the instants of trade practice have it', () => {
    const days = ['2027-03-13', '2027-03-20', '2027-11-06', '2027-11-13'];
    const text = write(days.map((day) => event(day)));
    // Checked by hand against the zone's offsets: -08:00, -07:00, -07:00, -08:00.
    expect(startsIn(text)).toEqual(
      ['2027-03-13T17:00Z', '2027-03-20T16:00Z', '2027-11-06T16:00Z', '2027-11-13T17:00Z'].map(Date.parse),
    );
  });

  it('is read with the same instants in any zone, whatever its clocks do', () => {
    const zones = [zone, 'America/New_York', 'Europe/London', 'Australia/Lord_Howe', 'Asia/Kolkata', 'UTC'];
    const minute = 60_000;
    const instants = fc.integer({ min: Date.UTC(2026, 0) / minute, max: Date.UTC(2029, 0) / minute });
    fc.assert(
      fc.property(
        fc.constantFrom(...zones),
        fc.array(instants, { minLength: 1, maxLength: 8 }),
        (timeZone, minutes) => {
          const starts = minutes.map((at) => at * minute).filter((at) => !isRepeated(at, timeZone));
          const events = starts.map((startsAt) =>
            event('2027-03-13', {
              shown: { ...shown('2027-03-13'), startsAt, endsAt: startsAt + 60 * minute },
            }),
          );
          expect(startsIn(write(events, timeZone))).toEqual(starts);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('folds no line beyond 75 octets, ends each with CR LF, and escapes what people wrote', () => {
    const words = 'Sägen; hobeln, dämpfen \\ “längs”\nund quer '.repeat(8).trim();
    const text = write([event('2027-03-13', { shown: shown('2027-03-13', { description: words }) })]);
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    for (const line of text.split('\r\n')) {
      expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
      expect(line).not.toMatch(/[\r\n]/);
    }
    const [part] = read(text).getAllSubcomponents('vevent');
    expect(part.getFirstPropertyValue('description')).toBe(words);
  });

  it('has what RFC 5545 asks of it, each once, and the name and interval of RFC 7986', () => {
    const calendar = read(write([event('2027-03-13')]));
    const names = (part: ICAL.Component) => part.getAllProperties().map((one) => one.name);
    expect(names(calendar)).toEqual(
      expect.arrayContaining(['prodid', 'version', 'name', 'refresh-interval']),
    );
    expect(calendar.getFirstProperty('refresh-interval')?.toICALString()).toBe(
      'REFRESH-INTERVAL;VALUE=DURATION:PT1H',
    );
    const part = calendar.getFirstSubcomponent('vevent');
    for (const name of ['uid', 'dtstamp', 'dtstart', 'dtend', 'sequence', 'status'])
      expect(part?.getAllProperties(name)).toHaveLength(1);
    expect(String(part?.getFirstPropertyValue('dtstamp'))).toMatch(/Z$/);
  });

  it('without any place is still a calendar', () => {
    expect(read(write([])).getAllSubcomponents()).toEqual([]);
  });

  it('a zone without changes has its one offset', () => {
    expect(zoneChanges('Asia/Kolkata', Date.UTC(2027, 0), Date.UTC(2027, 11)).at(-1)).toMatchObject({
      toMinutes: 330,
      isDaylight: false,
    });
  });
});

describe('What a calendar is told when something changes', () => {
  const now = Date.UTC(2027, 2, 6);
  const placeId = newId('place');
  const settle = (known: KnownEvent[], standing: [string, ShownEvent][], at = now) =>
    settleEvents(known, new Map(standing), at, now);

  it('a new place is a new event; asking again changes nothing', () => {
    const first = settle([], [[placeId, shown('2027-03-13')]]);
    expect(first.events).toMatchObject([{ placeId, sequence: 0, changedAt: now }]);
    const again = settle(first.events, [[placeId, shown('2027-03-13')]], now + 1);
    expect(again).toEqual({ events: first.events, changed: [], dropped: [] });
    expect(uidOf(placeId)).toMatch(/^[0-9a-f-]{36}$/);
  });

  it('a later start keeps the UID and raises the sequence', () => {
    const first = settle([], [[placeId, shown('2027-03-13')]]);
    const moved = shown('2027-03-13', { startsAt: shown('2027-03-13').startsAt + 3_600_000 });
    expect(settle(first.events, [[placeId, moved]], now + 1).changed).toMatchObject([
      { placeId, sequence: 1, changedAt: now + 1 },
    ]);
  });

  it('a place that is gone is told as cancelled for thirty days, and then no more', () => {
    const first = settle([], [[placeId, shown('2027-03-13')]]);
    const left = settle(first.events, [], now + 1);
    expect(left.events).toMatchObject([{ placeId, sequence: 1, shown: { status: 'CANCELLED' } }]);
    expect(settle(left.events, [], now + cancelledForMillis).dropped).toEqual([]);
    expect(settle(left.events, [], now + cancelledForMillis + 2)).toEqual({
      events: [],
      changed: [],
      dropped: [placeId],
    });
  });

  it('whatever happens, sequences never fall and no place is told twice', () => {
    const ids = ['a', 'b', 'c'].map((letter) => `place_${letter}`);
    const state = fc.array(
      fc.record({ id: fc.constantFrom(...ids), day: fc.constantFrom('2027-03-13', '2027-03-20') }),
      { maxLength: 4 },
    );
    fc.assert(
      fc.property(fc.array(state, { maxLength: 6 }), (states) => {
        let known: KnownEvent[] = [];
        states.forEach((standing, step) => {
          const next = settle(
            known,
            standing.map(({ id, day }) => [id, shown(day)]),
            now + step,
          );
          for (const one of next.events) {
            const before = known.find((other) => other.placeId === one.placeId);
            expect(one.sequence).toBeGreaterThanOrEqual(before?.sequence ?? 0);
            if (before && JSON.stringify(before.shown) !== JSON.stringify(one.shown))
              expect(one.sequence).toBe(before.sequence + 1);
          }
          expect(new Set(next.events.map((one) => one.placeId)).size).toBe(next.events.length);
          known = next.events;
        });
      }),
      { numRuns: 200 },
    );
  });
});

/** An hour that comes twice when clocks go back: local time alone cannot tell which is meant. */
function isRepeated(at: number, timeZone: string): boolean {
  return zoneChanges(timeZone, at - 86_400_000, at + 86_400_000).some((change) => {
    const before = Date.parse(`${change.on}T${change.at}Z`) - change.fromMinutes * 60_000;
    return at >= before - 7_200_000 && at < before + 7_200_000;
  });
}
