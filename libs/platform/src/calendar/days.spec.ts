import { addDays, daysBetween, isDay, isoWeek, startOfWeek, weekdayOf } from './days.js';

describe('days of the calendar', () => {
  it('counts weeks as ISO 8601 does, also where their year is not the calendar year', () => {
    const known: [day: string, year: number, week: number, weekday: number][] = [
      ['2008-12-29', 2009, 1, 1],
      ['2010-01-03', 2009, 53, 7],
      ['2021-01-03', 2020, 53, 7],
      ['2024-12-30', 2025, 1, 1],
      ['2027-01-01', 2026, 53, 5],
    ];
    for (const [day, year, week, weekday] of known) {
      expect(isoWeek(day)).toEqual({ year, week });
      expect(weekdayOf(day)).toBe(weekday);
    }
  });

  it('begins a week on its Monday', () => {
    expect(startOfWeek('2027-03-06')).toBe('2027-03-01');
    expect(startOfWeek('2027-03-07')).toBe('2027-03-01');
    expect(startOfWeek('2027-03-08')).toBe('2027-03-08');
    expect(startOfWeek('2027-01-01')).toBe('2026-12-28');
  });

  it('adds days across months, leap days and clock changes', () => {
    expect(addDays('2028-02-28', 1)).toBe('2028-02-29');
    expect(addDays('2027-02-28', 1)).toBe('2027-03-01');
    expect(addDays('2027-03-14', -14)).toBe('2027-02-28');
    expect(daysBetween('2027-03-06', '2027-10-16')).toBe(224);
    expect(daysBetween('2027-10-16', '2027-03-06')).toBe(-224);
  });

  it('knows a day that does not exist or is written otherwise', () => {
    expect(isDay('2028-02-29')).toBe(true);
    expect(isDay('2027-02-29')).toBe(false);
    expect(isDay('6 March 2027')).toBe(false);
    expect(isDay('2027-3-6')).toBe(false);
    expect(() => addDays('2027-02-29', 1)).toThrow(RangeError);
    expect(() => addDays('tomorrow', 1)).toThrow(/write it as 2027-03-06/);
  });
});
