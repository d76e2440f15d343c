import { forField, readFine, readLength, sayFeet, sayFine, sayInches } from './lengths.js';

describe('lengths', () => {
  it('are said in inches to an eighth, or in millimetres', () => {
    expect([114.3, 60.325, 3, -12.7].map((mm) => sayInches(mm, 'IMPERIAL'))).toEqual([
      '4½ in',
      '2⅜ in',
      '⅛ in',
      '−½ in',
    ]);
    expect(sayInches(1114.4, 'METRIC')).toBe('1,114 mm');
  });

  it('are said in feet and inches, or in metres', () => {
    expect([3810, 3657.6, 200].map((mm) => sayFeet(mm, 'IMPERIAL'))).toEqual(['12 ft 6 in', '12 ft', '8 in']);
    expect(sayFeet(3810, 'METRIC')).toBe('3.81 m');
  });

  it('come back from a field as they went in, to an eighth of an inch', () => {
    expect(readLength(Number(forField(114, 'IMPERIAL')), 'IMPERIAL')).toBe(114);
    expect(readLength(Number(forField(114, 'METRIC')), 'METRIC')).toBe(114);
  });
});

describe('a reading of a mark', () => {
  it('is said to the sixteenth of an inch, or to a tenth of a millimetre', () => {
    expect([5029.2, 5029.2 + 4.7625, 4.7625, -3.175, 0].map((mm) => sayFine(mm, 'IMPERIAL'))).toEqual([
      '198 in',
      '198 3/16 in',
      '3/16 in',
      '−1/8 in',
      '0 in',
    ]);
    expect([5029.24, -3.175].map((mm) => sayFine(mm, 'METRIC'))).toEqual(['5,029.2 mm', '−3.2 mm']);
  });

  it('is read as people write it, and nothing else is a number', () => {
    expect(readFine('198 3/16', 'IMPERIAL')).toBeCloseTo(5033.9625);
    expect(readFine('3/16 in', 'IMPERIAL')).toBeCloseTo(4.7625);
    expect(readFine('198.5', 'IMPERIAL')).toBeCloseTo(5041.9);
    expect(readFine('5029.5 mm', 'METRIC')).toBe(5029.5);
    expect(['', 'x', '198 3/0', 'in'].map((text) => readFine(text, 'IMPERIAL'))).toEqual([
      NaN,
      NaN,
      NaN,
      NaN,
    ]);
    expect(['', '198 3/16', '-4'].map((text) => readFine(text, 'METRIC'))).toEqual([NaN, NaN, NaN]);
  });
});
