import { localToInstant } from '@ribband/platform';
import type { ComingException, ComingRule } from './availability.types.js';
import { comesToWatch } from './watch-stays.js';

const zone = 'America/Los_Angeles';
const watch = (on: string, startTime: string, hours = 4) => {
  const startsAt = localToInstant(on, startTime, zone);
  return { id: 'turnout_1', on, startsAt, endsAt: startsAt + hours * 3_600_000 };
};
const saturdays = (from: string | null = null, to: string | null = null): ComingRule => ({
  ...{ rule: 'FREQ=WEEKLY;BYDAY=SA', startsOn: '2027-01-02', untilOn: null },
  ...{ from, to },
});
const on = (day: string, canCome: boolean, from: string | null = null, to: string | null = null) =>
  ({ fromOn: day, toOn: day, canCome, from, to }) satisfies ComingException;
const comes = (
  at: ReturnType<typeof watch>,
  rules: ComingRule[],
  exceptions: ComingException[] = [],
  closed: string[] = [],
): boolean => comesToWatch(rules, exceptions, at, zone, new Set(closed));

describe('when somebody can keep a watch', () => {
  it('is any watch by day of the days that they have named, and no watch by night', () => {
    expect(comes(watch('2027-10-16', '10:00'), [saturdays()])).toBe(true);
    expect(comes(watch('2027-10-17', '10:00'), [saturdays()])).toBe(false);
    for (const [day, start] of [
      ['2027-10-16', '02:00'],
      ['2027-10-16', '04:00'],
      ['2027-10-16', '20:00'],
      ['2027-10-16', '22:00'],
    ] as const)
      expect(comes(watch(day, start), [saturdays()])).toBe(false);
    expect(comes(watch('2027-10-16', '06:00'), [saturdays()])).toBe(true);
    expect(comes(watch('2027-10-16', '18:00'), [saturdays()])).toBe(true);
    // "Can come that day" names no hours either.
    expect(comes(watch('2027-10-16', '22:00'), [], [on('2027-10-16', true)])).toBe(false);
  });

  it('is a night whose hours they have named, also the one that began the evening before', () => {
    const nights = [saturdays('20:00', '08:00')];
    expect(comes(watch('2027-10-16', '20:00'), nights)).toBe(true);
    expect(comes(watch('2027-10-16', '22:00'), nights)).toBe(true);
    expect(comes(watch('2027-10-17', '02:00'), nights)).toBe(true);
    expect(comes(watch('2027-10-17', '05:00'), nights)).toBe(false);
    expect(comes(watch('2027-10-16', '02:00'), nights)).toBe(false);
    expect(comes(watch('2027-10-17', '02:00'), [], [on('2027-10-16', true, '20:00', '08:00')])).toBe(true);
    expect(comes(watch('2027-10-17', '02:00'), [saturdays('20:00', '03:00')])).toBe(false);
  });

  it('is no night on which they are away', () => {
    const nights = [saturdays('20:00', '08:00')];
    expect(comes(watch('2027-10-17', '02:00'), nights, [on('2027-10-17', false)])).toBe(false);
    expect(comes(watch('2027-10-17', '02:00'), nights, [on('2027-10-17', false, '12:00', '18:00')])).toBe(
      true,
    );
    expect(comes(watch('2027-10-16', '22:00'), nights, [on('2027-10-16', false)])).toBe(false);
    expect(comes(watch('2027-10-17', '02:00'), nights, [on('2027-10-16', false, '22:00', '07:00')])).toBe(
      false,
    );
    // The night begins on the evening of the 16th: who is away that day or that evening is not back at two.
    for (const away of [on('2027-10-16', false), on('2027-10-16', false, '18:00')])
      expect(comes(watch('2027-10-17', '02:00'), nights, [away])).toBe(false);
    expect(comes(watch('2027-10-17', '02:00'), nights, [on('2027-10-16', false, null, '18:00')])).toBe(true);
  });

  it('goes by the holiday of the day on which the night begins', () => {
    const nights = [saturdays('20:00', '08:00')];
    const small = watch('2027-10-17', '02:00');
    expect(comes(small, nights, [], ['2027-10-17'])).toBe(true);
    expect(comes(small, nights, [on('2027-10-17', false)], ['2027-10-17'])).toBe(false);
    expect(comes(small, nights, [], ['2027-10-16'])).toBe(false);
    expect(comes(watch('2027-10-16', '22:00'), nights, [], ['2027-10-16'])).toBe(false);
    // Whoever says that they come for that night comes, holiday or not.
    const said = [on('2027-10-16', true, '20:00', '08:00')];
    expect(comes(small, [], said, ['2027-10-16'])).toBe(true);
    // By day no rule counts on a holiday.
    expect(comes(watch('2027-10-16', '10:00'), [saturdays()], [], ['2027-10-16'])).toBe(false);
    expect(comes(watch('2027-10-16', '10:00'), [saturdays()], [], ['2027-10-15'])).toBe(true);
  });
});
