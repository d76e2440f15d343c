import { hours, rulesOf } from './gates.fixture.js';
import { dose, permittedHours, protection, timeWeightedAverage } from './noise-dose.js';

describe('The noise of a day', () => {
  it('each level has its hours, as 29 CFR 1910.95 Table G-16 prints them', () => {
    const table = { 90: 8, 92: 6, 95: 4, 97: 3, 100: 2, 102: 1.5, 105: 1, 110: 0.5, 115: 0.25 };
    for (const [dba, printed] of Object.entries(table))
      expect(Math.abs(permittedHours(Number(dba)) / printed - 1)).toBeLessThan(0.02);
  });

  it('Appendix A’s formula gives its own table for quieter levels', () => {
    for (const [dba, printed] of [
      [80, 32],
      [81, 27.9],
      [82, 24.3],
      [85, 16],
      [86, 13.9],
    ] as const)
      expect(permittedHours(dba)).toBeCloseTo(printed, 1);
  });

  // Computed from Appendix A's formula.
  it('a day at several levels adds up', () => {
    expect(dose([{ hours: 8, dba: 92 }])).toBeCloseTo(131.95, 1);
    const day = dose([
      { hours: 2, dba: 95 },
      { hours: 1, dba: 100 },
      { hours: 3, dba: 85 },
    ]);
    expect(day).toBeCloseTo(118.75, 2);
    expect(timeWeightedAverage(day)).toBeCloseTo(91.24, 2);
    const other = dose([
      { hours: 0.5, dba: 105 },
      { hours: 2.5, dba: 92 },
      { hours: 3, dba: 80 },
    ]);
    expect(other).toBeCloseTo(100.61, 1);
    expect(timeWeightedAverage(other)).toBeCloseTo(90.04, 2);
    expect(timeWeightedAverage(50)).toBeCloseTo(85, 1);
  });

  it('half of it is a caution, the whole of it without protection a stop, and protection counts', () => {
    const loud = (noiseDba: number, protectorsRating: number | null) => ({
      job: { hazards: ['noise'], noiseDba },
      yard: { protectorsRating },
    });
    expect(rulesOf('caution', loud(90, null))).toEqual([]);
    expect(rulesOf('caution', loud(93, null))).toEqual(['noise']);
    expect(rulesOf('stop', loud(98, null))).toEqual(['noise']);
    expect(protection(25)).toBe(9);
    expect(rulesOf('stop', loud(98, 25))).toEqual([]);
    expect(rulesOf('stop', loud(108, 25))).toEqual(['noise']);
  });

  it('what somebody does earlier the same day counts with it, and another day does not', () => {
    const nine = Date.UTC(2027, 3, 3, 16);
    const earlier = { startsAt: nine - hours(3), endsAt: nine, isMachine: false, noiseDba: 95 };
    const work = { hazards: ['noise'], noiseDba: 95 };
    expect(rulesOf('stop', { job: work })).toEqual([]);
    expect(rulesOf('stop', { job: work, shifts: [earlier] })).toEqual(['noise']);
    const yesterday = { ...earlier, startsAt: nine - hours(24), endsAt: nine - hours(21) };
    expect(rulesOf('stop', { job: work, shifts: [yesterday] })).toEqual([]);
  });

  it('where nobody has written the level down it says so', () => {
    expect(rulesOf('caution', { job: { hazards: ['noise'] } })).toEqual(['noise']);
  });
});
