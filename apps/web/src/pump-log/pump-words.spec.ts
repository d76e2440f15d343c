import { sayRound, sayTrend } from './pump-words.js';

describe('the words of the pump log', () => {
  it('says a round in the yard’s units, and nothing of what was not counted', () => {
    expect(sayRound({ depthMillimetres: 114, strokes: 1, minutes: null }, 'IMPERIAL')).toBe(
      '4½ in of water, 1 stroke',
    );
    expect(sayRound({ depthMillimetres: 0, strokes: null, minutes: 3 }, 'METRIC')).toBe(
      '0 mm of water, 3 minutes pumped',
    );
  });

  it('says how it goes, since when and from what to what', () => {
    const at = (instant: string) => instant.slice(11, 16);
    const trend = { since: '2027-10-16T02:00:00Z', latestAt: '2027-10-16T05:00:00Z' };
    expect(
      sayTrend(
        { ...trend, measure: 'DEPTH', goes: 'RISING', from: 100, latest: 160, perHour: 20 },
        'METRIC',
        at,
      ),
    ).toBe('The water has been rising since 02:00: from 100 mm to 160 mm, up 20 mm an hour.');
    expect(
      sayTrend(
        { ...trend, measure: 'STROKES', goes: 'FALLING', from: 90, latest: 60, perHour: -10 },
        'METRIC',
        at,
      ),
    ).toBe('The pumping has been falling since 02:00: from 90 strokes an hour to 60 strokes an hour.');
    expect(
      sayTrend({ ...trend, measure: 'MINUTES', goes: 'LEVEL', from: 5, latest: 5, perHour: 0 }, 'METRIC', at),
    ).toBe('The pumping has been level since 02:00: 5 minutes an hour.');
  });
});
