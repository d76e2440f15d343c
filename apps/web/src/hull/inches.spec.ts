import { readInches, sayInches } from './inches.js';

describe('a reading in inches', () => {
  it('is said to the sixteenth', () => {
    expect([5029.2, 5029.2 + 4.7625, 4.7625, -3.175, 0].map(sayInches)).toEqual([
      '198 in',
      '198 3/16 in',
      '3/16 in',
      '−1/8 in',
      '0 in',
    ]);
  });

  it('is read as people write it, and nothing else is a number', () => {
    expect(readInches('198 3/16')).toBeCloseTo(5033.9625);
    expect(readInches('3/16 in')).toBeCloseTo(4.7625);
    expect(readInches('198.5')).toBeCloseTo(5041.9);
    expect(['', 'x', '198 3/0', 'in'].map(readInches)).toEqual([NaN, NaN, NaN, NaN]);
  });
});
