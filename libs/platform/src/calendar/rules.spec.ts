import { checkRule, expandRule } from './rules.js';
import { instantToLocal, localToInstant } from './zones.js';

const newYork = 'America/New_York';

/** Local days on which a rule occurs from its start on, at most `years` of them. */
function daysOf(startsOn: string, rule: string, years = 10, timeZone = newYork): string[] {
  const from = localToInstant(startsOn, '00:00', timeZone);
  const to = localToInstant(`${Number(startsOn.slice(0, 4)) + years}-01-01`, '00:00', timeZone);
  return expandRule({ rule, startsOn, startTime: '09:00', timeZone }, from, to).map((start) => {
    const local = instantToLocal(start, timeZone);
    expect(local.time).toBe('09:00');
    return local.day;
  });
}

/** '1997-09: 2 4 16, 1997-10: 2' as days. */
function days(text: string): string[] {
  return text.split(', ').flatMap((month) => {
    const [name = '', list = ''] = month.split(': ');
    return list.split(' ').map((day) => `${name}-${day.padStart(2, '0')}`);
  });
}

describe('the examples of RFC 5545, section 3.8.5.3 (nine o’clock in New York)', () => {
  it.each([
    ['1997-09-02', 'FREQ=DAILY;COUNT=10', '1997-09: 2 3 4 5 6 7 8 9 10 11'],
    ['1997-09-02', 'FREQ=DAILY;INTERVAL=10;COUNT=5', '1997-09: 2 12 22, 1997-10: 2 12'],
    [
      '1997-09-01',
      'FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR',
      '1997-09: 1 3 5 15 17 19 29, 1997-10: 1 3 13 15 17 27 29 31, 1997-11: 10 12 14 24 26 28, 1997-12: 8 10 12 22',
    ],
    [
      '1997-09-02',
      'FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH',
      '1997-09: 2 4 16 18 30, 1997-10: 2 14 16',
    ],
    [
      '1997-09-05',
      'FREQ=MONTHLY;COUNT=10;BYDAY=1FR',
      '1997-09: 5, 1997-10: 3, 1997-11: 7, 1997-12: 5, 1998-01: 2, 1998-02: 6, 1998-03: 6, 1998-04: 3, 1998-05: 1, 1998-06: 5',
    ],
    [
      '1997-09-07',
      'FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU',
      '1997-09: 7 28, 1997-11: 2 30, 1998-01: 4 25, 1998-03: 1 29, 1998-05: 3 31',
    ],
    [
      '1997-09-22',
      'FREQ=MONTHLY;COUNT=6;BYDAY=-2MO',
      '1997-09: 22, 1997-10: 20, 1997-11: 17, 1997-12: 22, 1998-01: 19, 1998-02: 16',
    ],
    ['1997-09-04', 'FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3', '1997-09: 4, 1997-10: 7, 1997-11: 6'],
    ['1997-08-05', 'FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO', '1997-08: 5 10 19 24'],
    ['1997-08-05', 'FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU', '1997-08: 5 17 19 31'],
    ['2007-01-15', 'FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5', '2007-01: 15 30, 2007-02: 15, 2007-03: 15 30'],
  ])('from %s, %s', (startsOn, rule, expected) => {
    expect(daysOf(startsOn, rule)).toEqual(days(expected));
  });

  it('every day until Christmas Eve UTC: 113 days, on summer time until 25 October', () => {
    const from = localToInstant('1997-09-02', '00:00', newYork);
    const to = localToInstant('1999-01-01', '00:00', newYork);
    const starts = expandRule(
      {
        rule: 'FREQ=DAILY;UNTIL=19971224T000000Z',
        startsOn: '1997-09-02',
        startTime: '09:00',
        timeZone: newYork,
      },
      from,
      to,
    );
    const texts = starts.map((start) => new Date(start).toISOString());
    expect(texts).toHaveLength(113);
    expect(texts[0]).toBe('1997-09-02T13:00:00.000Z');
    expect(texts.filter((text) => text.includes('T13:00'))).toHaveLength(54);
    expect(texts.slice(53, 55)).toEqual(['1997-10-25T13:00:00.000Z', '1997-10-26T14:00:00.000Z']);
    expect(texts.at(-1)).toBe('1997-12-23T14:00:00.000Z');
  });

  it('each Friday the thirteenth, the starting day itself not being one', () => {
    expect(daysOf('1997-09-02', 'FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13').slice(0, 5)).toEqual(
      days('1998-02: 13, 1998-03: 13, 1998-11: 13, 1999-08: 13, 2000-10: 13'),
    );
  });
});

describe('turnouts from rules', () => {
  const yard = { rule: 'FREQ=WEEKLY;BYDAY=WE,SA,SU', startsOn: '2027-03-06', startTime: '09:00' };
  const losAngeles = 'America/Los_Angeles';

  it('keep their local time through both clock changes of 2027', () => {
    const from = localToInstant('2027-03-13', '00:00', losAngeles);
    const to = localToInstant('2027-11-15', '00:00', losAngeles);
    const starts = expandRule({ ...yard, timeZone: losAngeles }, from, to).map((s) =>
      new Date(s).toISOString(),
    );
    expect(starts.slice(0, 3)).toEqual([
      '2027-03-13T17:00:00.000Z',
      '2027-03-14T16:00:00.000Z',
      '2027-03-17T16:00:00.000Z',
    ]);
    expect(starts.slice(-4, -1)).toEqual([
      '2027-11-07T17:00:00.000Z',
      '2027-11-10T17:00:00.000Z',
      '2027-11-13T17:00:00.000Z',
    ]);
  });

  it('are held an hour later, not lost, when they would start in the gap of a clock change', () => {
    const rule = { rule: 'FREQ=DAILY', startsOn: '2027-03-13', startTime: '02:30', timeZone: losAngeles };
    const starts = expandRule(rule, Date.parse('2027-03-13T00:00:00Z'), Date.parse('2027-03-16T00:00:00Z'));
    expect(starts).toEqual([
      Date.parse('2027-03-13T02:30:00-08:00'),
      Date.parse('2027-03-14T03:30:00-07:00'),
      Date.parse('2027-03-15T02:30:00-07:00'),
    ]);
  });

  it('start once when the clock is put back, at the first of the two', () => {
    const rule = { rule: 'FREQ=DAILY', startsOn: '2027-11-06', startTime: '01:30', timeZone: losAngeles };
    const starts = expandRule(rule, Date.parse('2027-11-06T00:00:00Z'), Date.parse('2027-11-09T00:00:00Z'));
    expect(starts).toEqual([
      Date.parse('2027-11-06T01:30:00-07:00'),
      Date.parse('2027-11-07T01:30:00-07:00'),
      Date.parse('2027-11-08T01:30:00-08:00'),
    ]);
  });

  it('end with their last local day, and with a moment in UTC exactly', () => {
    const from = Date.parse('2027-01-01T00:00:00Z');
    const to = Date.parse('2028-01-01T00:00:00Z');
    const until = (rule: string, untilOn: string | null): string[] =>
      expandRule({ ...yard, rule, timeZone: losAngeles, untilOn }, from, to).map(
        (start) => instantToLocal(start, losAngeles).day,
      );
    expect(until('FREQ=DAILY', '2027-03-08')).toEqual(['2027-03-06', '2027-03-07', '2027-03-08']);
    expect(until('FREQ=DAILY;UNTIL=20270308T170000Z', null)).toHaveLength(3);
    expect(until('FREQ=DAILY;UNTIL=20270308T165959Z', null)).toHaveLength(2);
  });

  it('take the first moment of a span and leave its last', () => {
    const nine = localToInstant('2027-03-06', '09:00', losAngeles);
    const rule = { ...yard, timeZone: losAngeles };
    expect(expandRule(rule, nine, nine + 1)).toEqual([nine]);
    expect(expandRule(rule, nine - 1, nine)).toEqual([]);
    expect(expandRule(rule, nine, nine)).toEqual([]);
  });

  it('cannot be laid out over more than forty years at once', () => {
    const to = Date.parse('2099-01-01T00:00:00Z');
    expect(() => expandRule({ ...yard, timeZone: losAngeles }, 0, to)).toThrow(/40 years at most/);
  });
});

describe('a rule at the door', () => {
  const fault = (rule: string, untilOn?: string): string | null =>
    checkRule(rule, '2027-03-06', 'America/Los_Angeles', untilOn);

  it('passes when it can be read and occurs', () => {
    for (const rule of [
      'FREQ=WEEKLY;BYDAY=WE,SA,SU',
      'FREQ=WEEKLY;INTERVAL=2;BYDAY=SA',
      'FREQ=MONTHLY;BYDAY=1SA,3SA',
      'FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=29',
      'FREQ=WEEKLY;BYDAY=SU;UNTIL=20270701T065959Z',
    ])
      expect(fault(rule)).toBeNull();
  });

  it.each([
    ['FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30', 'never occurs'],
    ['FREQ=DAILY;BYMONTH=4;BYMONTHDAY=31', 'never occurs'],
    ['FREQ=DAILY;INTERVAL=7;BYDAY=MO', 'never occurs'],
    ['FREQ=MONTHLY;BYDAY=6MO', 'never occurs'],
    ['FREQ=WEEKLY;UNTIL=20270101T000000Z', 'never occurs'],
    ['FREQ=SECONDLY', 'FREQ must be DAILY, WEEKLY, MONTHLY or YEARLY'],
    ['FREQ=HOURLY', 'FREQ must be DAILY'],
    ['FREQ=DAILY;BYHOUR=9,17', 'cannot have BYHOUR'],
    ['FREQ=WEEKLY;BYDAYS=MO', 'cannot have BYDAYS'],
    ['FREQ=WEEKLY;BYDAY=MON', 'BYDAY must be days such as MO'],
    ['FREQ=WEEKLY;BYDAY=2MO', 'cannot be read'],
    ['FREQ=DAILY;BYMONTHDAY=32', 'BYMONTHDAY must be numbers from 1 to 31'],
    ['FREQ=WEEKLY;INTERVAL=0', 'INTERVAL must be a whole number'],
    ['FREQ=WEEKLY;COUNT=3;UNTIL=20270701T065959Z', 'cannot be read'],
    ['FREQ=WEEKLY;UNTIL=20270701', 'such as 20270701T065959Z'],
    ['FREQ=DAILY;FREQ=WEEKLY', 'stands twice'],
    ['BYDAY=MO', 'does not say how often'],
    ['FREQ=YEARLY;BYDAY=10MO;BYMONTHDAY=5,6,7', 'cannot stand together'],
    ['every Wednesday', 'written like FREQ=WEEKLY'],
    ['', 'written like FREQ=WEEKLY'],
    ['RRULE:FREQ=DAILY', 'cannot have RRULE:FREQ'],
  ])('refuses %s and says what is wrong', (rule, words) => {
    expect(fault(rule)).toContain(words);
  });

  it('refuses an end before the start, or before the first occurrence', () => {
    expect(fault('FREQ=DAILY', '2027-03-05')).toContain('never occurs');
    expect(fault('FREQ=WEEKLY;BYDAY=WE', '2027-03-09')).toContain('never occurs');
    expect(fault('FREQ=WEEKLY;BYDAY=WE', '2027-03-10')).toBeNull();
  });
});
