import { checkRule, expandRule, instantToLocal, localToInstant } from '@ribband/platform';
import fc from 'fast-check';
import rrulePackage from 'rrule';

const { rrulestr } = rrulePackage;

/**
 * Rules laid out by a second RFC 5545 library, which the product does not use, on a clock that never changes.
 *
 * Left out, because the two differ there or only one of them defines it:
 * - hours, minutes and seconds (the yard's rules have none), and time zones (the second library leaves them to Date);
 * - BYSETPOS in weeks: where the starting day cuts the first week, the second library counts from the starting day;
 * - BYWEEKNO without BYDAY: the first takes the starting day's weekday, the second all seven days of the week;
 * - a counted weekday beside BYMONTHDAY or BYYEARDAY in a rule by year: the first is wrong, so the yard refuses it.
 */

const weekdays = ['MO', 'TU', 'WE', 'TH', 'FR', 'SA', 'SU'] as const;
const weekdayList = fc.uniqueArray(fc.constantFrom(...weekdays), { minLength: 1, maxLength: 4 });
const numbered = fc
  .tuple(fc.constantFrom(1, 2, 3, 4, -1, -2), fc.constantFrom(...weekdays))
  .map(([n, day]) => `${String(n)}${day}`);
const monthDays = fc.uniqueArray(
  fc.oneof(fc.integer({ min: 1, max: 31 }), fc.integer({ min: -31, max: -1 })),
  { minLength: 1, maxLength: 4 },
);
const months = fc.uniqueArray(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 4 });
const positions = fc.uniqueArray(fc.constantFrom(1, 2, 3, -1, -2), { minLength: 1, maxLength: 2 });

const part = (name: string, values: fc.Arbitrary<readonly (string | number)[]>): fc.Arbitrary<string> =>
  values.map((list) => `;${name}=${list.join(',')}`);
const maybe = (text: fc.Arbitrary<string>): fc.Arbitrary<string> => fc.oneof(fc.constant(''), text);

const end = fc.oneof(
  fc.constant(''),
  fc.integer({ min: 1, max: 60 }).map((n) => `;COUNT=${String(n)}`),
  fc.integer({ min: 0, max: 1500 }).map((n) => {
    const until = new Date(Date.UTC(2027, 0, 1 + n, 12));
    return `;UNTIL=${until.toISOString().slice(0, 10).replaceAll('-', '')}T120000Z`;
  }),
);
const interval = fc.integer({ min: 1, max: 5 }).map((n) => `;INTERVAL=${String(n)}`);
const weekStart = maybe(fc.constantFrom(...weekdays).map((day) => `;WKST=${day}`));

const daily = fc
  .tuple(
    interval,
    maybe(part('BYMONTH', months)),
    maybe(part('BYDAY', weekdayList)),
    maybe(part('BYMONTHDAY', monthDays)),
    end,
  )
  .map((texts) => `FREQ=DAILY${texts.join('')}`);
const weekly = fc
  .tuple(interval, maybe(part('BYMONTH', months)), maybe(part('BYDAY', weekdayList)), weekStart, end)
  .map((texts) => `FREQ=WEEKLY${texts.join('')}`);
const monthly = fc
  .tuple(
    interval,
    maybe(part('BYMONTH', months)),
    fc.oneof(
      part('BYMONTHDAY', monthDays),
      part('BYDAY', fc.uniqueArray(numbered, { minLength: 1, maxLength: 3 })),
      fc.tuple(part('BYDAY', weekdayList), maybe(part('BYSETPOS', positions))).map((texts) => texts.join('')),
      fc.tuple(part('BYDAY', weekdayList), part('BYMONTHDAY', monthDays)).map((texts) => texts.join('')),
      fc.constant(''),
    ),
    end,
  )
  .map((texts) => `FREQ=MONTHLY${texts.join('')}`);
const yearly = fc
  .tuple(
    interval,
    fc.oneof(
      fc.tuple(part('BYMONTH', months), part('BYMONTHDAY', monthDays)).map((texts) => texts.join('')),
      fc
        .tuple(
          part('BYMONTH', months),
          part('BYDAY', fc.uniqueArray(numbered, { minLength: 1, maxLength: 3 })),
        )
        .map((texts) => texts.join('')),
      part('BYDAY', fc.uniqueArray(numbered, { minLength: 1, maxLength: 3 })),
      fc
        .tuple(
          part('BYWEEKNO', fc.uniqueArray(fc.integer({ min: 1, max: 53 }), { minLength: 1, maxLength: 4 })),
          part('BYDAY', weekdayList),
        )
        .map((texts) => texts.join('')),
      fc.tuple(part('BYDAY', weekdayList), part('BYMONTHDAY', monthDays)).map((texts) => texts.join('')),
      part('BYYEARDAY', fc.uniqueArray(fc.integer({ min: 1, max: 366 }), { minLength: 1, maxLength: 4 })),
      fc.constant(''),
    ),
    end,
  )
  .map((texts) => `FREQ=YEARLY${texts.join('')}`);

const startsOn = fc
  .integer({ min: 0, max: 1200 })
  .map((n) => new Date(Date.UTC(2026, 0, 1 + n)).toISOString().slice(0, 10));

const instant = (day: string): number => Date.parse(`${day}T12:00:00Z`);

describe('rules of recurrence, against a second library', () => {
  it('fall on the same days', () => {
    let occurred = 0;
    fc.assert(
      fc.property(
        fc.oneof(daily, weekly, monthly, yearly),
        startsOn,
        fc.integer({ min: 0, max: 900 }),
        (rule, day, skip) => {
          const from = instant(day) + skip * 86_400_000;
          const to = instant(day) + (skip + 500) * 86_400_000;
          const second = rrulestr(`RRULE:${rule}`, { dtstart: new Date(instant(day)), cache: false })
            .between(new Date(from), new Date(to - 1), true)
            .map((date) => date.getTime());
          const first = expandRule({ rule, startsOn: day, startTime: '12:00', timeZone: 'UTC' }, from, to);
          expect({ rule, day, starts: first }).toEqual({ rule, day, starts: second });
          if (second.length > 0) {
            occurred += 1;
            expect(checkRule(rule, day, 'UTC')).toBeNull();
          }
        },
      ),
      { numRuns: 600, seed: 20270306 },
    );
    expect(occurred).toBeGreaterThan(300);
  });

  it('fall on the same local days in a zone whose clock changes', () => {
    const zone = 'America/Los_Angeles';
    fc.assert(
      fc.property(fc.oneof(weekly, monthly), startsOn, (rule, day) => {
        fc.pre(!rule.includes('UNTIL'));
        const to = localToInstant('2031-01-01', '00:00', zone);
        const local = expandRule({ rule, startsOn: day, startTime: '09:00', timeZone: zone }, 0, to).map(
          (start) => {
            const { day: on, time } = instantToLocal(start, zone);
            expect(time).toBe('09:00');
            return on;
          },
        );
        const second = rrulestr(`RRULE:${rule}`, { dtstart: new Date(instant(day)), cache: false })
          .between(new Date(0), new Date(Date.UTC(2031, 0, 1)), true)
          .map((date) => date.toISOString().slice(0, 10));
        expect(local).toEqual(second);
      }),
      { numRuns: 150, seed: 20271107 },
    );
  });
});
