import { lowerBound, solve } from '@ribband/engine';
import fc from 'fast-check';
import { randomYard } from '../../libs/engine/src/random-yard.fixture.js';
import { oracle } from './oracle.js';
import { tinyYard } from './tiny-yard.js';
import { verifyPlan } from './verify-plan.js';

const MOST_STATES = 3000;
/** Trying everything takes a while on a busy machine. */
const PATIENCE = 180_000;

describe('against the best plan there is, found by trying everything', () => {
  it(
    'no bound is later than the best plan, whatever the yard',
    () => {
      let met = 0;
      let plans = 0;
      fc.assert(
        fc.property(fc.gen(), (g) => {
          const yard = tinyYard(g);
          const best = oracle(yard, MOST_STATES);
          if (best.kind !== 'ready') return;
          const bound = lowerBound(yard);
          expect(bound.ready).toBeLessThanOrEqual(best.ready);
          plans++;
          if (bound.ready === best.ready) met++;
        }),
        { numRuns: 80, endOnFailure: true },
      );
      // A bound that is always far off would pass as well.
      expect(met).toBeGreaterThan(plans / 2);
    },
    PATIENCE,
  );

  it(
    'no plan beats it or breaks a rule, whatever the yard',
    () => {
      fc.assert(
        fc.property(fc.gen(), (g) => {
          const yard = tinyYard(g);
          const outcome = solve(yard, { seed: 1, schedules: 100 });
          if (outcome.kind === 'no plan') {
            expect(outcome.wishes.length).toBeGreaterThan(0);
            return;
          }
          expect(verifyPlan(yard, outcome.plan)).toEqual([]);
          const best = oracle(yard, MOST_STATES);
          if (best.kind === 'gave up') return;
          expect(best.kind).toBe('ready');
          if (best.kind === 'ready') expect(outcome.plan.ready).toBeGreaterThanOrEqual(best.ready);
        }),
        { numRuns: 60, endOnFailure: true },
      );
    },
    PATIENCE,
  );

  it(
    'most sound small yards are planned as well as can be',
    () => {
      let equal = 0;
      let known = 0;
      fc.assert(
        fc.property(fc.gen(), (g) => {
          const yard = tinyYard(g, 4, true);
          const best = oracle(yard, MOST_STATES);
          if (best.kind !== 'ready') return;
          const outcome = solve(yard, { seed: 1, schedules: 300 });
          known++;
          if (outcome.kind === 'plan' && outcome.plan.ready === best.ready) equal++;
        }),
        { numRuns: 60, endOnFailure: true },
      );
      expect(known).toBeGreaterThan(20);
      expect(equal / known).toBeGreaterThan(0.8);
    },
    PATIENCE,
  );

  it(
    'larger yards: plans keep every rule and no bound is later than them',
    () => {
      let plans = 0;
      fc.assert(
        fc.property(randomYard({ tasks: 25, easy: true }), (yard) => {
          const outcome = solve(yard, { seed: 3, schedules: 20 });
          if (outcome.kind === 'no plan') return;
          plans++;
          expect(verifyPlan(yard, outcome.plan)).toEqual([]);
          expect(lowerBound(yard).ready).toBeLessThanOrEqual(outcome.plan.ready);
        }),
        { numRuns: 40, endOnFailure: true },
      );
      expect(plans).toBeGreaterThan(20);
    },
    PATIENCE,
  );
});
