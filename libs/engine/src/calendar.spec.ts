import fc from 'fast-check';
import { EVER, NEVER, WorkCalendar } from './calendar.js';

const two = new WorkCalendar([
  { start: 10, end: 60 },
  { start: 200, end: 250 },
]);

describe('working time', () => {
  it('counts only the minutes inside turnouts', () => {
    expect([0, 10, 11, 59, 60, 150, 200, 225, 250, 999].map((t) => two.worked(t))).toEqual([
      0, 0, 1, 49, 50, 50, 50, 75, 100, 100,
    ]);
    expect(two.total).toBe(100);
    expect(two.longest).toBe(50);
    expect(two.between(40, 210)).toBe(30);
    expect(two.between(210, 40)).toBe(-30);
  });

  it('goes home at the end of one turnout and comes back at the start of the next', () => {
    expect(two.endOf(50)).toBe(60);
    expect(two.startOf(50)).toBe(200);
    expect(two.endOf(0)).toBe(EVER);
    expect(two.startOf(-1)).toBe(EVER);
    expect(two.startOf(100)).toBe(NEVER);
    expect(two.endOf(101)).toBe(NEVER);
  });

  it('carries work over the days between turnouts', () => {
    expect(two.advance(40, 20)).toBe(60);
    expect(two.advance(40, 21)).toBe(201);
    expect(two.advance(100, 5)).toBe(205);
    expect(two.advance(100, 0)).toBe(100);
    expect(two.advance(240, 11)).toBe(NEVER);
    expect(two.retreat(201, 21)).toBe(40);
    expect(two.retreat(200, 50)).toBe(10);
    expect(two.retreat(200, 51)).toBe(EVER);
    expect(two.retreat(100, 0)).toBe(100);
  });

  it('knows the next minute to start and the last minute to end', () => {
    expect([0, 10, 59, 60, 249, 250].map((t) => two.next(t))).toEqual([10, 10, 59, 200, 249, NEVER]);
    expect([10, 11, 60, 199, 200, 201, 999].map((t) => two.previous(t))).toEqual([
      EVER,
      11,
      60,
      60,
      60,
      201,
      250,
    ]);
    expect([9, 10, 59, 60, 200].map((t) => two.turnoutAt(t))).toEqual([-1, 0, 0, -1, 1]);
    expect([0, 59, 60, 249, 250].map((t) => two.turnoutAfter(t))).toEqual([0, 0, 1, 1, 2]);
  });

  it('puts one-go work whole into one turnout', () => {
    expect(two.fit(0, 50)).toBe(10);
    expect(two.fit(11, 50)).toBe(200);
    expect(two.fit(40, 20)).toBe(40);
    expect(two.fit(0, 51)).toBe(NEVER);
    expect(two.fitBefore(249, 50)).toBe(10);
    expect(two.fitBefore(999, 50)).toBe(200);
    expect(two.fitBefore(230, 30)).toBe(200);
    expect(two.fitBefore(59, 50)).toBe(EVER);
  });

  it('counts a working lag in turnouts and an elapsed one by the clock', () => {
    expect(two.lagged(40, 30, true)).toBe(210);
    expect(two.lagged(40, 30, false)).toBe(70);
    expect(two.lagged(210, -30, true)).toBe(40);
    expect(two.lagged(210, -30, false)).toBe(180);
    expect(two.lagged(100, 0, true)).toBe(100);
    expect(two.lagged(20, -11, true)).toBe(EVER);
    expect(two.unlagged(210, 30, true)).toBe(40);
    expect(two.unlagged(20, 30, true)).toBe(EVER);
  });

  it('has an answer for a yard without turnouts', () => {
    const none = new WorkCalendar([]);
    expect(none.worked(5)).toBe(0);
    expect(none.next(5)).toBe(NEVER);
    expect(none.previous(5)).toBe(EVER);
    expect(none.fit(5, 1)).toBe(NEVER);
    expect(none.fitBefore(5, 1)).toBe(EVER);
    expect(none.advance(5, 1)).toBe(NEVER);
  });
});

/** Turnouts with uneven lengths and gaps, some touching, one far away. */
const turnouts = fc
  .array(fc.tuple(fc.oneof(fc.nat(40), fc.constant(5000)), fc.integer({ min: 1, max: 30 })), {
    minLength: 1,
    maxLength: 12,
  })
  .map((parts) => {
    let t = -20;
    return parts.map(([gap, length]) => ({ start: (t += gap), end: (t += length) }));
  });

describe('working time on any calendar', () => {
  it('agrees with counting minute by minute', () => {
    fc.assert(
      fc.property(
        turnouts,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.integer({ min: 1, max: 60 }),
        (list, at, minutes) => {
          const calendar = new WorkCalendar(list);
          const last = list[list.length - 1].end;
          const t = Math.round(-25 + at * (last + 30));
          const on = (minute: number) => list.some((w) => w.start <= minute && minute < w.end);
          let worked = 0;
          for (let m = -25; m < t; m++) if (on(m)) worked++;
          expect(calendar.worked(t)).toBe(worked);

          let end = t;
          for (let left = minutes; left > 0 && end < NEVER; end++) {
            if (end >= last) end = NEVER - 1;
            else if (on(end)) left--;
          }
          expect(calendar.advance(t, minutes)).toBe(end);

          let begin = t;
          for (let left = minutes; left > 0;) {
            begin--;
            if (begin < -25) break;
            if (on(begin)) left--;
          }
          expect(calendar.retreat(t, minutes)).toBe(begin < -25 ? EVER : begin);

          const fits = (from: number) => list.some((w) => w.start <= from && from + minutes <= w.end);
          let fit = t;
          while (fit < last && !fits(fit)) fit++;
          expect(calendar.fit(t, minutes)).toBe(fit < last ? fit : NEVER);
          let before = t - minutes;
          while (before >= -25 && !fits(before)) before--;
          expect(calendar.fitBefore(t, minutes)).toBe(before >= -25 ? before : EVER);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('keeps a lag exactly when the inverse says so', () => {
    fc.assert(
      fc.property(
        turnouts,
        fc.nat(400),
        fc.nat(400),
        fc.integer({ min: -40, max: 40 }),
        fc.boolean(),
        (list, a, b, lag, working) => {
          const calendar = new WorkCalendar(list);
          expect(calendar.lagged(a, lag, working) <= b).toBe(a <= calendar.unlagged(b, lag, working));
        },
      ),
      { numRuns: 1000 },
    );
  });
});
