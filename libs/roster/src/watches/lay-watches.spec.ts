import { layWatches } from './lay-watches.js';

const zone = 'America/Los_Angeles';
const hour = 3_600_000;

describe('watches', () => {
  it('follow one another round the clock, 72 hours in eighteen of four', () => {
    const watches = layWatches({ on: '2027-10-16', startTime: '10:00', all: 72 * 60, each: 240 }, zone);
    expect(watches).toHaveLength(18);
    expect(watches[0]).toMatchObject({ heldOn: '2027-10-16', startTime: '10:00', endTime: '14:00' });
    expect(watches[3]).toMatchObject({ heldOn: '2027-10-16', startTime: '22:00', endTime: '02:00' });
    expect(watches[4]).toMatchObject({ heldOn: '2027-10-17', startTime: '02:00', endTime: '06:00' });
    for (const [i, { startsAt, endsAt }] of watches.entries()) {
      expect(endsAt - startsAt).toBe(4 * hour);
      if (i > 0) expect(startsAt).toBe(watches[i - 1].endsAt);
    }
  });

  it('end when she has been watched long enough: the last one is as long as what is left', () => {
    const watches = layWatches({ on: '2027-10-16', startTime: '20:30', all: 10 * 60, each: 240 }, zone);
    expect(watches.map(({ startTime, endTime }) => `${startTime} ${endTime}`)).toEqual([
      '20:30 00:30',
      '00:30 04:30',
      '04:30 06:30',
    ]);
  });

  // The clocks go back on 7 November 2027 at 02:00 and forward on 14 March at 02:00: 15 U.S.C. 260a.
  it.each([
    ['2027-11-06', 5],
    ['2027-03-13', 3],
  ])('leave no gap in the night after %s, in which the clocks change', (on, hours) => {
    const watches = layWatches({ on, startTime: '20:00', all: 12 * 60, each: 240 }, zone);
    expect(watches.map(({ startsAt, endsAt }) => (endsAt - startsAt) / hour)).toEqual([4, hours, 4]);
    expect(watches[1].startsAt).toBe(watches[0].endsAt);
    expect(watches[2].startsAt).toBe(watches[1].endsAt);
  });
});
