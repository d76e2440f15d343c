import { publishedRates, rateFor, worth } from './rates.js';

const rate = (rest: Partial<Parameters<typeof rateFor>[0][number]> & { cents: number }) => ({
  kindId: null,
  grantId: null,
  fromOn: '2027-01-01',
  enteredAt: 1,
  ...rest,
});
const on = (day: string) => ({ kindId: 'sawing', grantId: 'trust', on: day });

describe('what an hour is worth', () => {
  it('is the rate of the newest day that has come', () => {
    const rates = [rate({ cents: 1 }), rate({ cents: 2, fromOn: '2027-06-01' })];
    expect(rateFor(rates, on('2027-05-31'))?.cents).toBe(1);
    expect(rateFor(rates, on('2027-06-01'))?.cents).toBe(2);
    expect(rateFor(rates, on('2026-12-31'))).toBeNull();
  });

  it('is the grant’s own rate before the yard’s, and the kind’s own before the one for every kind', () => {
    const rates = [
      rate({ cents: 1 }),
      rate({ cents: 2, kindId: 'sawing' }),
      rate({ cents: 3, grantId: 'trust' }),
      rate({ cents: 4, kindId: 'caulking', grantId: 'trust' }),
    ];
    expect(rateFor(rates, on('2027-03-01'))?.cents).toBe(3);
    expect(rateFor(rates.slice(0, 2), on('2027-03-01'))?.cents).toBe(2);
    expect(rateFor(rates, { ...on('2027-03-01'), kindId: 'caulking' })?.cents).toBe(4);
  });

  it('is the one entered last where two hold from the same day', () => {
    expect(rateFor([rate({ cents: 1 }), rate({ cents: 2, enteredAt: 2 })], on('2027-03-01'))?.cents).toBe(2);
  });

  it('comes to whole cents, the same way up and down', () => {
    // By hand: 50 minutes at $34.79 are 28.991… dollars.
    expect(worth(50, 3479)).toBe(2899);
    expect(worth(-50, 3479)).toBe(-2899);
    expect(worth(300, 3479)).toBe(17_395);
  });

  it('has the published values with their sources, each marked with how surely it is known', () => {
    expect(publishedRates.find((one) => one.year === 2024)?.centsAnHour).toBe(3479);
    for (const { source } of publishedRates) expect(source).toMatch(/\((as told in press|from memory)/);
  });
});
