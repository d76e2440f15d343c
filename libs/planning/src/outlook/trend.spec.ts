import { addDays } from '@ribband/platform';
import { DayWords } from '../words/days.js';
import { oddsWords } from '../words/odds-words.js';
import type { Reason } from './event-words.js';
import { trendOf } from './trend.js';

const days = new DayWords('UTC', '2027');
const marks = (moves: (number | null)[], reasons: Record<number, string | Reason> = {}) =>
  moves.map((moved, week) => ({
    markedOn: addDays('2027-03-06', 7 * week),
    likelyOn: moved === null ? null : addDays('2027-10-01', moved),
    gateOdds: 0.5,
    reasons: reasons[week] ? [reasons[week]] : [],
  }));

describe('the trend of the day by which she is likely ready', () => {
  it('says how fast it slips, since when, and what was recorded then', () => {
    const told = trendOf(marks([0, 0, 0, 2, 4, 6, 8], { 3: 'the plank stock was late' }), days);
    expect(told.sentence).toBe('Slipping 2 days a week since 20 Mar: the plank stock was late.');
    expect(told.daysAWeek).toBeCloseTo(2, 6);
  });

  it('says when it holds, when it gains, and that two marks are only a step', () => {
    expect(trendOf(marks([0, 0, 0, 0]), days).sentence).toBe('Holding steady since 6 Mar.');
    expect(trendOf(marks([9, 6, 3, 0]), days).sentence).toBe('Gaining 3 days a week since 6 Mar.');
    expect(trendOf(marks([0, 5], { 1: 'Anselm is away' }), days).sentence).toBe(
      '5 days later than on 6 Mar: Anselm is away.',
    );
    expect(trendOf(marks([0]), days).sentence).toContain('No trend yet');
  });
});

describe('the cause of a trend', () => {
  const lost: Reason = { words: 'nine nails were lost', way: 'later' };
  const out: Reason = { words: 'frame 12 was left out', way: 'sooner' };

  it('is none that goes the other way: a loss is no reason for a gain', () => {
    expect(trendOf(marks([14, 0], { 1: lost }), days).sentence).toBe('14 days earlier than on 6 Mar.');
    expect(trendOf(marks([14, 0], { 1: out }), days).sentence).toBe(
      '14 days earlier than on 6 Mar: frame 12 was left out.',
    );
    expect(trendOf(marks([9, 6, 3, 0], { 1: lost }), days).sentence).toBe(
      'Gaining 3 days a week since 6 Mar.',
    );
    expect(trendOf(marks([0, 3, 6, 9], { 1: lost }), days).sentence).toContain(': nine nails were lost.');
  });

  it('was recorded between the two marks that are compared, also where no day was known in between', () => {
    expect(trendOf(marks([0, 5], { 0: lost }), days).sentence).toBe('5 days later than on 6 Mar.');
    expect(trendOf(marks([0, null, 5], { 1: lost }), days).sentence).toBe(
      '5 days later than on 6 Mar: nine nails were lost.',
    );
    expect(trendOf(marks([0, 3, 6, 9], { 3: lost }), days).sentence).toBe(
      'Slipping 3 days a week since 6 Mar.',
    );
  });
});

describe('odds as one says them', () => {
  it('are in tens, and near the ends in twenties, never certain', () => {
    expect([0, 0.05, 0.1, 0.34, 0.66, 0.9, 0.94, 1].map(oddsWords)).toEqual([
      'less than 1 in 20',
      '1 in 20',
      '1 in 10',
      '3 in 10',
      '7 in 10',
      '9 in 10',
      '19 in 20',
      'better than 19 in 20',
    ]);
  });
});
