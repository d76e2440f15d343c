import { measure, plot } from '../bench/calibrate/report.js';
import { trialsOf } from '../bench/calibrate/trial.js';

describe('the odds of small yards whose truth is known', () => {
  // The whole of it is `npm run calibrate`; so few yards can only show that nothing is badly off. The bounds are three
  // standard errors wide, so that a sound model passes them whatever the seeds.
  it('hold about as often as they say', () => {
    const trials = [];
    for (let seed = 900_000; seed < 900_030; seed++) trials.push(...trialsOf(seed, 80));
    const all = measure(trials).at(-1);
    if (all === undefined) throw new Error('nothing measured');
    expect(all.trials).toBeGreaterThan(60);
    for (const [held, wanted] of [
      [all.p50, 0.5],
      [all.p80, 0.8],
      [all.p95, 0.95],
    ] as const) {
      expect(Math.abs(held.share - wanted)).toBeLessThan(3 * Math.sqrt((wanted * (1 - wanted)) / 30));
    }
    // Later forecasts know more: they say narrower dates and are less far off.
    const [start, third, twoThirds] = measure(trials);
    expect(third.off).toBeLessThan(start.off);
    expect(twoThirds.off).toBeLessThan(third.off);
    expect(third.days.p80 - third.days.p50).toBeLessThan(start.days.p80 - start.days.p50);
    expect(plot(trials)).toContain('<svg');
  }, 120_000);
});
