import { checkTimeZone, instantToLocal, instantToText, localToInstant, textToInstant } from './zones.js';

const at = (text: string): number => Date.parse(text);

describe('local times and instants', () => {
  it('keeps the yard’s nine o’clock at nine through both clock changes of 2027 in Los Angeles', () => {
    const known: [day: string, instant: string][] = [
      ['2027-03-13', '2027-03-13T17:00:00Z'],
      ['2027-03-14', '2027-03-14T16:00:00Z'],
      ['2027-03-20', '2027-03-20T16:00:00Z'],
      ['2027-11-06', '2027-11-06T16:00:00Z'],
      ['2027-11-07', '2027-11-07T17:00:00Z'],
      ['2027-11-13', '2027-11-13T17:00:00Z'],
    ];
    for (const [day, instant] of known) {
      expect(localToInstant(day, '09:00', 'America/Los_Angeles')).toBe(at(instant));
      expect(instantToLocal(at(instant), 'America/Los_Angeles')).toEqual({ day, time: '09:00' });
    }
  });

  it('reads a time in the gap with the offset before it, and a repeated one as the first (RFC 5545, 3.3.5)', () => {
    const newYork = 'America/New_York';
    expect(localToInstant('2007-03-11', '02:30', newYork)).toBe(at('2007-03-11T03:30:00-04:00'));
    expect(localToInstant('2007-11-04', '01:30', newYork)).toBe(at('2007-11-04T01:30:00-04:00'));
    expect(localToInstant('2027-03-14', '02:30', 'America/Los_Angeles')).toBe(
      at('2027-03-14T03:30:00-07:00'),
    );
    expect(localToInstant('2027-11-07', '01:30', 'America/Los_Angeles')).toBe(
      at('2027-11-07T01:30:00-07:00'),
    );
  });

  it('reads a repeated one as the second where that is asked for, and all others as ever', () => {
    const later = (day: string, time: string) => localToInstant(day, time, 'America/Los_Angeles', 'later');
    expect(later('2027-11-07', '01:30')).toBe(at('2027-11-07T01:30:00-08:00'));
    expect(later('2027-11-07', '02:30')).toBe(at('2027-11-07T02:30:00-08:00'));
    expect(later('2027-03-14', '02:30')).toBe(at('2027-03-14T03:30:00-07:00'));
  });

  it('reads and writes date-times of RFC 3339, section 5.8', () => {
    expect(textToInstant('1996-12-19T16:39:57-08:00')).toBe(at('1996-12-20T00:39:57Z'));
    expect(instantToText(textToInstant('1996-12-19T16:39:57-08:00'))).toBe('1996-12-20T00:39:57Z');
    expect(textToInstant('1990-12-31T23:59:60Z')).toBe(at('1990-12-31T23:59:59Z'));
    expect(() => textToInstant('1996-12-19T16:39:57')).toThrow(RangeError);
  });

  it('takes only zones that know their clock changes', () => {
    expect(checkTimeZone('America/Los_Angeles')).toBeNull();
    expect(checkTimeZone('Pacific Time')).toContain('such as America/Los_Angeles');
    expect(checkTimeZone('-08:00')).toContain('knows no clock change');
  });

  it('refuses a time that no clock shows', () => {
    expect(() => localToInstant('2027-03-06', '24:00', 'UTC')).toThrow(/write it as 09:00/);
    expect(() => localToInstant('2027-03-06', '9:00', 'UTC')).toThrow(RangeError);
  });
});
