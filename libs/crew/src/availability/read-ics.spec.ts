import { readHolidays, readIcs } from './read-ics.js';

const zone = 'America/Los_Angeles';
const file = (...lines: string[]): string =>
  ['BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//A//B//EN', ...lines, 'END:VCALENDAR', ''].join('\r\n');
const event = (...lines: string[]): string[] => ['BEGIN:VEVENT', 'UID:1', ...lines, 'END:VEVENT'];
const read = (text: string, first = '2027-03-01', last = '2027-12-31') => readIcs(text, zone, first, last);
const away = (text: string): string[] => {
  const found = read(text);
  if ('fault' in found) throw new Error(found.fault.message);
  return found.exceptions.map(({ fromOn, toOn, from, to }) =>
    [fromOn === toOn ? fromOn : `${fromOn} to ${toOn}`, (from ?? to) ? `${from ?? ''}-${to ?? ''}` : '']
      .join(' ')
      .trim(),
  );
};
const fault = (text: string) => {
  const found = read(text);
  return 'fault' in found ? found.fault : null;
};

describe('Reading when somebody is busy from a calendar file', () => {
  it('an all-day event ends the day before its end, and one without an end is one day', () => {
    expect(away(file(...event('DTSTART;VALUE=DATE:20270605', 'DTEND;VALUE=DATE:20270627')))).toEqual([
      '2027-06-05 to 2027-06-26',
    ]);
    expect(away(file(...event('DTSTART;VALUE=DATE:20270605')))).toEqual(['2027-06-05']);
  });

  it('a time in UTC, in a named zone and without a zone are hours of the yard’s day', () => {
    expect(away(file(...event('DTSTART:20270320T160000Z', 'DURATION:PT2H')))).toEqual([
      '2027-03-20 09:00-11:00',
    ]);
    expect(
      away(
        file(
          ...event(
            'DTSTART;TZID=America/New_York:20270320T120000',
            'DTEND;TZID=America/New_York:20270320T130000',
          ),
        ),
      ),
    ).toEqual(['2027-03-20 09:00-10:00']);
    expect(away(file(...event('DTSTART:20270320T090000', 'DTEND:20270320T100000')))).toEqual([
      '2027-03-20 09:00-10:00',
    ]);
  });

  it('a zone of the file’s own is read by what the file says of it', () => {
    const zoneLines = [
      'BEGIN:VTIMEZONE',
      'TZID:Our harbor',
      'BEGIN:STANDARD',
      'DTSTART:19700101T000000',
      'TZOFFSETFROM:+0000',
      'TZOFFSETTO:+0000',
      'END:STANDARD',
      'END:VTIMEZONE',
    ];
    const lines = event('DTSTART;TZID=Our harbor:20270320T160000', 'DURATION:PT1H');
    expect(away(file(...zoneLines, ...lines))).toEqual(['2027-03-20 09:00-10:00']);
    expect(fault(file(...lines))).toMatchObject({ line: 4, message: expect.stringContaining('Our harbor') });
  });

  it('what comes back keeps its local hour over the clock change; left-out and moved days are right', () => {
    const weekly = event(
      'DTSTART;TZID=America/Los_Angeles:20270306T090000',
      'DURATION:PT1H',
      'RRULE:FREQ=WEEKLY;COUNT=4',
      'EXDATE;TZID=America/Los_Angeles:20270313T090000',
    );
    const moved = event(
      'RECURRENCE-ID;TZID=America/Los_Angeles:20270320T090000',
      'DTSTART;TZID=America/Los_Angeles:20270321T100000',
      'DURATION:PT1H',
    );
    expect(away(file(...weekly, ...moved))).toEqual([
      '2027-03-06 09:00-10:00',
      '2027-03-21 10:00-11:00',
      '2027-03-27 09:00-10:00',
    ]);
  });

  it('the second Tuesday and Thursday fortnight of RFC 5545 comes on the days that it names', () => {
    const lines = event(
      'DTSTART;VALUE=DATE:19970902',
      'RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH',
    );
    const found = readIcs(file(...lines), 'America/New_York', '1997-09-01', '1998-01-01');
    // RFC 5545, section 3.8.5.3.
    expect('exceptions' in found ? found.exceptions.map((one) => one.fromOn) : found).toEqual([
      '1997-09-02',
      '1997-09-04',
      '1997-09-16',
      '1997-09-18',
      '1997-09-30',
      '1997-10-02',
      '1997-10-14',
      '1997-10-16',
    ]);
  });

  it('what is marked as free or cancelled keeps nobody away, and is counted', () => {
    const found = read(
      file(
        ...event('DTSTART;VALUE=DATE:20270605', 'TRANSP:TRANSPARENT'),
        ...event('DTSTART;VALUE=DATE:20270606', 'STATUS:CANCELLED'),
        ...event('DTSTART;VALUE=DATE:20270607'),
      ),
    );
    expect(found).toMatchObject({ read: 1, passedOver: 2, exceptions: [{ fromOn: '2027-06-07' }] });
  });

  it('a journey over days is what is left of the first, whole days, and the morning of the last; what touches is one', () => {
    expect(away(file(...event('DTSTART:20270605T180000', 'DTEND:20270608T110000')))).toEqual([
      '2027-06-05 18:00-',
      '2027-06-06 to 2027-06-07',
      '2027-06-08 -11:00',
    ]);
    const two = [
      ...event('DTSTART:20270320T090000', 'DTEND:20270320T100000'),
      ...event('DTSTART:20270320T100000', 'DTEND:20270320T113000'),
    ];
    expect(away(file(...two))).toEqual(['2027-03-20 09:00-11:30']);
  });

  it('a bad file is refused with the line', () => {
    expect(fault('Dear yard,\nI am away in June.')).toMatchObject({ line: 1 });
    expect(fault(file(...event('DTSTART;VALUE=DATE:20270230')))).toMatchObject({ line: 6 });
    expect(fault(file('BEGIN:VEVENT', 'UID:1', 'this is no line'))).toMatchObject({ line: 6 });
    expect(fault(file('BEGIN:VEVENT', 'UID:1'))).toMatchObject({
      line: 6,
      message: expect.stringContaining('END:VCALENDAR'),
    });
    expect(fault(file(...event('SUMMARY:No start')))).toMatchObject({ line: 4 });
    expect(fault('BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n')).toMatchObject({
      message: expect.stringContaining('breaks off'),
    });
    expect(fault(file(...event('DTSTART:20270320T090000', 'DURATION:two hours')))).toMatchObject({ line: 7 });
    expect(fault(file(...event('DTSTART:20270320T090000', 'RRULE:FREQ=NEVER')))).toMatchObject({ line: 7 });
  });

  it('a rule by the second does not hold anybody up', () => {
    const began = process.cpuUsage().user;
    const lines = event('DTSTART:20270301T090000Z', 'DURATION:PT1S', 'RRULE:FREQ=SECONDLY');
    expect(fault(file(...lines))).toMatchObject({ line: 4 });
    expect((process.cpuUsage().user - began) / 1e6).toBeLessThan(10);
  });

  it('lines that are folded are read whole, and the line numbers are those of the file', () => {
    const text = file(
      'X-LONG:one',
      ' and the rest',
      ...event('DTSTART;VALUE=DA', ' TE:20270605'),
      ...event('DTSTART:tomorrow'),
    );
    expect(fault(text)).toMatchObject({ line: 13 });
  });
});

describe('Reading holidays from a calendar file', () => {
  it('takes whole days with their names, free or not, year after year, and passes hours and what was cancelled over', () => {
    const text = file(
      ...event(
        'SUMMARY:Harbor day',
        'TRANSP:TRANSPARENT',
        'DTSTART;VALUE=DATE:20270704',
        'RRULE:FREQ=YEARLY',
      ),
      ...event('SUMMARY:Winter rest', 'DTSTART;VALUE=DATE:20271224', 'DTEND;VALUE=DATE:20271227'),
      ...event('SUMMARY:Meeting', 'DTSTART:20270705T170000Z', 'DURATION:PT2H'),
      ...event('SUMMARY:Off', 'STATUS:CANCELLED', 'DTSTART;VALUE=DATE:20270801'),
    );
    expect(readHolidays(text, zone, '2027-03-01', '2028-08-01')).toEqual({
      holidays: [
        { fromOn: '2027-07-04', toOn: '2027-07-04', name: 'Harbor day' },
        { fromOn: '2027-12-24', toOn: '2027-12-26', name: 'Winter rest' },
        { fromOn: '2028-07-04', toOn: '2028-07-04', name: 'Harbor day' },
      ],
    });
    expect(readHolidays('no calendar', zone, '2027-03-01', '2028-08-01')).toHaveProperty('fault');
  });
});
