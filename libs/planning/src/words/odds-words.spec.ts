import type { Forecast, Problem } from '@ribband/engine';
import { oddsSentence } from './odds-words.js';

const day = 1440;
const problem = (now: number, kind: 'waiting' | 'done' = 'waiting') =>
  ({
    now,
    aim: { gate: 10 * day, slots: [10 * day, 40 * day] },
    tasks: [{ progress: { kind } }],
    skills: [{ name: 'Sawing' }],
    tools: [],
  }) as unknown as Problem;
const forecast = {
  slots: [
    { at: 10 * day, odds: 0.52, error: 0 },
    { at: 40 * day, odds: 0.93, error: 0 },
  ],
  chain: [{ kind: 'skill', index: 0, share: 0.6 }],
} as unknown as Forecast;
const says = (now: number, kind?: 'waiting' | 'done') =>
  oddsSentence(forecast, problem(now, kind), (minute) => `day ${String(minute / day)}`);

describe('the sentence at the top', () => {
  it('is about the gate while it is to come', () => {
    expect(says(0)).toBe('About 5 in 10 to make day 10; sawing decides.');
  });

  it('is about the next slot once the gate has gone by, and about none where none is booked', () => {
    expect(says(20 * day)).toBe(
      'The gate of day 10 has gone by; about 19 in 20 to make day 40; sawing decides.',
    );
    expect(says(50 * day)).toBe(
      'The gate of day 10 has gone by; no later slot is booked, and sawing decides.',
    );
  });

  it('says that she is ready once all is done', () => {
    expect(says(5 * day, 'done')).toBe('She is ready: nothing is left to be done before the lift.');
  });
});
