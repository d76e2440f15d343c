import type { Gained, Look } from './supposed.js';
import { whatIfSentence } from './what-if-sentence.js';

const look = (odds: number, likelyOn: string): Look => ({
  readyAt: Date.parse('2027-10-01T12:00:00Z'),
  evenAt: null,
  likelyAt: Date.parse(`${likelyOn}T12:00:00Z`),
  gate: { odds, error: 0.01 },
  spread: [],
});
const said = (now: Look, then: Look, odds: number, days: number): string => {
  const gained: Gained = { odds: { odds, error: 0.01 }, likely: { minutes: days * 1440, error: 2 * 1440 } };
  return whatIfSentence({ planId: 'plan_1', now, then, gained }, 'UTC');
};

describe('what a what-if would do', () => {
  it('is told with both odds and both days where it is more than luck', () => {
    expect(said(look(0.6, '2027-10-14'), look(0.9, '2027-10-03'), 0.3, 11)).toBe(
      '9 in 10 instead of 6 in 10 to make the gate; ready in 8 futures of 10 by 3 Oct instead of 14 Oct.',
    );
    expect(said(look(0.58, '2027-10-14'), look(0.62, '2027-10-20'), 0.04, -6)).toBe(
      'Still 6 in 10 to make the gate, a little better; ready in 8 futures of 10 by 20 Oct instead of 14 Oct.',
    );
  });

  it('is as now where the same futures can’t tell it from luck, and equal days are told as equal', () => {
    expect(said(look(0.64, '2027-10-30'), look(0.655, '2027-10-30'), 0.015, 0)).toBe(
      '6 in 10 to make the gate, as now; ready in 8 futures of 10 by 30 Oct, as now.',
    );
    expect(said(look(0.6, '2027-10-30'), look(0.6, '2027-10-28'), 0, 2)).toBe(
      '6 in 10 to make the gate, as now; ready in 8 futures of 10 by about 30 Oct, as now.',
    );
  });

  it('takes the errors of both looks where the futures were not kept', () => {
    const [now, then] = [look(0.64, '2027-10-30'), look(0.66, '2027-10-30')];
    expect(whatIfSentence({ planId: 'plan_1', now, then }, 'UTC')).toContain(
      '6 in 10 to make the gate, as now',
    );
  });
});
