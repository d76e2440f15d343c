import { forField, readLength, sayFeet, sayInches } from './lengths.js';

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
