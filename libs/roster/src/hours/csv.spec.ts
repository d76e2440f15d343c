import { Figure, toCsv } from './csv.js';

describe('comma-separated text', () => {
  it('ends each line with CRLF, and quotes what holds a comma, a quote or a line break (RFC 4180, section 2)', () => {
    expect(toCsv([['a', 'b,c', 'say "aye"', 'two\nlines', null, 3]])).toBe(
      'a,"b,c","say ""aye""","two\nlines",,3\r\n',
    );
  });

  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1'])(
    'never lets a spreadsheet take what somebody wrote for a formula: %j',
    (text) => {
      const [cell = ''] = toCsv([[text]]).split('\r\n');
      expect(cell.replace(/^"/, '')).toMatch(/^'/);
    },
  );

  it('leaves numbers below nothing as numbers', () => {
    expect(toCsv([[-1.5, Figure.withTwoPlaces(-0.25)]])).toBe('-1.5,-0.25\r\n');
  });
});
