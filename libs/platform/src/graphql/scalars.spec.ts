import fc from 'fast-check';
import { DateTime, LocalDate, LocalTime } from './scalars.js';

describe('instants', () => {
  it('come out as they went in, in UTC', () => {
    fc.assert(
      fc.property(fc.date({ min: new Date(0), max: new Date('2200-01-01'), noInvalidDate: true }), (date) => {
        expect(DateTime.parseValue(DateTime.serialize(date.getTime()))).toBe(date.getTime());
      }),
    );
    expect(DateTime.parseValue('2027-04-03T07:30:00-07:00')).toBe(Date.UTC(2027, 3, 3, 14, 30));
  });

  it('must say their offset and lie on a day that exists', () => {
    for (const text of ['2027-04-03', '2027-04-03T07:30:00', '2027-02-30T07:30:00Z', 'today', 12, null]) {
      expect(() => DateTime.parseValue(text)).toThrow('RFC 3339');
    }
  });
});

describe('days and times at the yard', () => {
  it('are taken as they are', () => {
    expect(LocalDate.parseValue('2028-02-29')).toBe('2028-02-29');
    expect(LocalTime.parseValue('23:59')).toBe('23:59');
  });

  it('must exist', () => {
    for (const text of ['2027-02-29', '2027-13-01', '27-01-01', '2027-1-1', 5]) {
      expect(() => LocalDate.parseValue(text)).toThrow('YYYY-MM-DD');
    }
    for (const text of ['24:00', '9:00', '09:60', '09:00:00', 9]) {
      expect(() => LocalTime.parseValue(text)).toThrow('HH:MM');
    }
  });

  it('are never shown in another shape, which would be a fault of ours', () => {
    expect(() => LocalDate.serialize('tomorrow')).toThrow(TypeError);
    expect(() => DateTime.serialize('2027-04-03T00:00:00Z')).toThrow(TypeError);
  });
});
