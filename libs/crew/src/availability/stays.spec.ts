import { localToInstant } from '@ribband/platform';
import fc from 'fast-check';
import { availabilityFaults } from './availability-faults.js';
import type { ComingException, ComingRule, DatedTurnout } from './availability.types.js';
import { staysOf } from './stays.js';

const zone = 'America/Los_Angeles';

const turnout = (on: string, from = '09:00', to = '14:00'): DatedTurnout => ({
  id: on,
  on,
  startsAt: localToInstant(on, from, zone),
  endsAt: localToInstant(on, to, zone),
});
const rule = (text: string, over: Partial<ComingRule> = {}): ComingRule => ({
  rule: text,
  startsOn: '2027-03-01',
  untilOn: null,
  from: null,
  to: null,
  ...over,
});
const away = (fromOn: string, toOn: string, over: Partial<ComingException> = {}): ComingException => ({
  fromOn,
  toOn,
  canCome: false,
  from: null,
  to: null,
  ...over,
});
const shown = (rules: ComingRule[], exceptions: ComingException[], turnouts: DatedTurnout[]) =>
  staysOf(rules, exceptions, turnouts, zone).map((stay) => [
    stay.turnoutId,
    (stay.from - turnout(stay.turnoutId, '00:00').startsAt) / 3_600_000,
    (stay.to - stay.from) / 3_600_000,
  ]);

describe('When somebody can be at a turnout', () => {
  const march = ['2027-03-10', '2027-03-13', '2027-03-14', '2027-03-17', '2027-03-20'].map((on) =>
    turnout(on),
  );

  it('Wednesdays and Saturdays mean the whole of every Wednesday and Saturday turnout, across the clock change', () => {
    expect(shown([rule('FREQ=WEEKLY;BYDAY=WE,SA')], [], march)).toEqual([
      ['2027-03-10', 9, 5],
      ['2027-03-13', 9, 5],
      ['2027-03-17', 9, 5],
      ['2027-03-20', 9, 5],
    ]);
  });

  it('on a holiday no rule counts, only who says that they come', () => {
    const holiday = { ...turnout('2027-03-13'), isClosed: true };
    const saturdays = [rule('FREQ=WEEKLY;BYDAY=SA')];
    expect(shown(saturdays, [], [holiday, turnout('2027-03-20')])).toEqual([['2027-03-20', 9, 5]]);
    const comes = { ...away('2027-03-13', '2027-03-13'), canCome: true };
    expect(shown(saturdays, [comes], [holiday])).toEqual([['2027-03-13', 9, 5]]);
  });

  it('every second Saturday counts from the day on which the rule starts', () => {
    const fortnight = rule('FREQ=WEEKLY;INTERVAL=2;BYDAY=SA', { startsOn: '2027-03-06' });
    expect(shown([fortnight], [], march).map(([on]) => on)).toEqual(['2027-03-20']);
  });

  it('from ten to noon is two hours of a turnout that runs from nine to two', () => {
    expect(shown([rule('FREQ=DAILY', { from: '10:00', to: '12:00' })], [], [turnout('2027-03-20')])).toEqual([
      ['2027-03-20', 10, 2],
    ]);
  });

  it('hours outside the turnout are no use to it', () => {
    expect(shown([rule('FREQ=DAILY', { from: '15:00', to: null })], [], march)).toEqual([]);
  });

  it('away on holiday overrules the rule, and one promised day overrules the holiday', () => {
    const exceptions = [
      away('2027-03-13', '2027-03-20'),
      away('2027-03-17', '2027-03-17', { canCome: true }),
    ];
    expect(shown([rule('FREQ=WEEKLY;BYDAY=WE,SA')], exceptions, march).map(([on]) => on)).toEqual([
      '2027-03-10',
      '2027-03-17',
    ]);
  });

  it('a dentist in the middle leaves the longer part of the morning', () => {
    const dentist = away('2027-03-20', '2027-03-20', { from: '10:00', to: '11:00' });
    expect(shown([rule('FREQ=DAILY')], [dentist], [turnout('2027-03-20')])).toEqual([['2027-03-20', 11, 3]]);
  });

  it('who can come early and can come late the same day stays through', () => {
    const rules = [rule('FREQ=DAILY', { to: '11:30' }), rule('FREQ=WEEKLY;BYDAY=SA', { from: '11:30' })];
    expect(shown(rules, [], [turnout('2027-03-20')])).toEqual([['2027-03-20', 9, 5]]);
  });

  it('a rule ends on the day that it names, that day included', () => {
    expect(shown([rule('FREQ=DAILY', { untilOn: '2027-03-14' })], [], march).map(([on]) => on)).toEqual([
      '2027-03-10',
      '2027-03-13',
      '2027-03-14',
    ]);
  });

  it('a night watch past midnight is one stay', () => {
    const night = { ...turnout('2027-10-16'), endsAt: localToInstant('2027-10-17', '08:00', zone) };
    const watch = rule('FREQ=WEEKLY;BYDAY=SA', { from: '22:00', to: '06:00' });
    expect(shown([watch], [], [night])).toEqual([['2027-10-16', 22, 8]]);
  });

  it('nobody is expected outside a turnout, before its start, after its end, or twice at one', () => {
    const time = fc.constantFrom(null, '08:00', '09:30', '11:00', '13:59', '18:00');
    const exceptions = fc.array(
      fc.record({
        fromOn: fc.constantFrom('2027-03-10', '2027-03-14'),
        toOn: fc.constantFrom('2027-03-14', '2027-03-20'),
        canCome: fc.boolean(),
        from: time,
        to: time,
      }),
      { maxLength: 4 },
    );
    const rules = fc.array(
      fc.record({
        rule: fc.constantFrom('FREQ=DAILY', 'FREQ=WEEKLY;BYDAY=SA', 'FREQ=MONTHLY;BYDAY=2SU'),
        startsOn: fc.constant('2027-03-01'),
        untilOn: fc.constantFrom(null, '2027-03-15'),
        from: time,
        to: time,
      }),
      { maxLength: 3 },
    );
    fc.assert(
      fc.property(rules, exceptions, (some, others) => {
        const stays = staysOf(some, others, march, zone);
        expect(new Set(stays.map((stay) => stay.turnoutId)).size).toBe(stays.length);
        for (const stay of stays) {
          const at = march.find((one) => one.id === stay.turnoutId);
          expect(at && stay.from >= at.startsAt && stay.to <= at.endsAt && stay.from < stay.to).toBe(true);
        }
      }),
      { numRuns: 100 },
    );
  });
});

describe('Availability that can’t stand', () => {
  it('a rule that never occurs is named by its place', () => {
    const rules = [rule('FREQ=WEEKLY;BYDAY=WE'), rule('FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30')];
    const faults = availabilityFaults(rules, [], zone);
    expect(faults.map((fault) => fault.path)).toEqual(['rules[1].rule']);
    expect(faults[0]?.message).toMatch(/never occurs/);
  });

  it('a holiday that ends before it begins, a day that is none, and hours of no length are named', () => {
    const exceptions = [
      away('2027-06-26', '2027-06-05'),
      away('2027-02-30', '2027-03-01'),
      away('2027-06-05', '2027-06-05', { from: '10:00', to: '10:00' }),
    ];
    expect(availabilityFaults([], exceptions, zone).map((fault) => fault.path)).toEqual([
      'exceptions[0].toOn',
      'exceptions[1].fromOn',
      'exceptions[2].to',
    ]);
  });
});
