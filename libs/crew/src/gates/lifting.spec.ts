import { person, rulesOf, stopsOnTheDay } from './gates.fixture.js';
import { carriersFor, recommendedPounds } from './lifting.js';

describe('Lifting', () => {
  // NIOSH 94-110: 51 lb at its best; the other rows computed from its equation.
  it.each([
    [10, 30, 10, 0, 1, 1, 51],
    [15, 24, 36, 0, 1, 0.95, 26.8],
    [18, 6, 42, 30, 0.94, 0.9, 15.3],
    [23, 15, 49, 0, 1, 0.95, 16],
    [23, 64, 49, 0, 1, 1, 14.2],
  ])(
    'hands %i in out, %i in up, %i in of travel, %i°: the limit',
    (horizontal, vertical, travel, turn, frequency, grip, pounds) => {
      expect(recommendedPounds({ horizontal, vertical, travel, turn, frequency, grip })).toBeCloseTo(
        pounds,
        1,
      );
    },
  );

  it('outside its ranges the equation gives nothing', () => {
    expect(
      recommendedPounds({ horizontal: 26, vertical: 30, travel: 10, turn: 0, frequency: 1, grip: 1 }),
    ).toBe(0);
  });

  it('one carrier for each 35 lb', () => {
    expect([35, 36, 100, 115, 140, 141].map(carriersFor)).toEqual([1, 2, 3, 4, 4, 5]);
  });

  it('fewer carriers than the piece asks for wait on the day, and are told ahead of it', () => {
    const job = { hazards: ['lifting'], lift: { pounds: 100, isHigh: false } };
    expect(rulesOf('caution', { job })).toEqual(['carriers']);
    expect(stopsOnTheDay({ job })).toEqual(['carriers']);
    expect(stopsOnTheDay({ job, alongside: [person('a'), person('b')] })).toEqual([]);
  });

  it('more than four carriers, or above chest height, wants gear with a tag that counts', () => {
    const alongside = [person('a'), person('b')];
    for (const lift of [
      { pounds: 150, isHigh: false },
      { pounds: 60, isHigh: true },
    ])
      expect(stopsOnTheDay({ job: { lift }, alongside })).toEqual(['lifting-gear']);
    const tag = {
      kind: 'lifting-gear' as const,
      name: 'Chain hoist',
      inspectedOn: '2027-03-01',
      isWithdrawn: false,
    };
    const job = { lift: { pounds: 150, isHigh: false } };
    const withTag = (over: object) =>
      stopsOnTheDay({ job, alongside, yard: { tags: [{ ...tag, expiresOn: '2027-04-03', ...over }] } });
    expect(withTag({})).toEqual([]);
    expect(withTag({ expiresOn: '2027-04-02' })).toEqual(['lifting-gear']);
    expect(withTag({ isWithdrawn: true })).toEqual(['lifting-gear']);
    expect(withTag({ kind: 'staging' })).toEqual(['lifting-gear']);
  });
});
