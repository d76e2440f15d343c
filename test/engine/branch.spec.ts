import { checkProblem, solve, type Problem } from '@ribband/engine';
import fc from 'fast-check';
import { oracle } from './oracle.js';
import { Random } from '../../libs/engine/src/search/random.js';
import { link, problem, task } from './small-problem.js';
import { tinyYard } from './tiny-yard.js';
import { unbrokenYard } from './unbroken-yard.js';
import { verifyPlan } from './verify-plan.js';

const PATIENCE = 180_000;

describe('the exact search, against the best plan there is', () => {
  it(
    'proves the best plan and no other, whatever the skills, tools, stays and links',
    () => {
      let proved = 0;
      let bySearch = 0;
      for (let seed = 1; seed <= 110; seed++) {
        const yard = unbrokenYard(seed);
        expect(checkProblem(yard).filter((fault) => fault.kind === 'malformed')).toEqual([]);
        const outcome = solve(yard, { seed: 1, schedules: 3000, steps: 20_000 });
        const best = oracle(yard, 4000);
        if (outcome.kind === 'no plan') {
          expect(best.kind).not.toBe('ready');
          continue;
        }
        const { plan } = outcome;
        expect(verifyPlan(yard, plan)).toEqual([]);
        if (best.kind !== 'ready') continue;
        expect(plan.bound.ready).toBeLessThanOrEqual(best.ready);
        expect(plan.ready).toBe(best.ready);
        // Working lags that begin before the turnout does are not known to it.
        if (yard.turnouts[0].start > yard.now) continue;
        expect({ seed, proved: plan.proved }).toEqual({ seed, proved: true });
        proved++;
        if (plan.bound.kind === 'search') bySearch++;
      }
      expect(proved).toBeGreaterThan(25);
      expect(bySearch).toBeGreaterThan(2);
    },
    PATIENCE,
  );

  it(
    'proves nothing false about a yard with rules that it does not know',
    () => {
      fc.assert(
        fc.property(fc.gen(), (g) => {
          const yard = tinyYard(g);
          const outcome = solve(yard, { seed: 1, schedules: 3000, steps: 20_000 });
          if (outcome.kind === 'no plan') return;
          expect(verifyPlan(yard, outcome.plan)).toEqual([]);
          const best = oracle(yard, 3000);
          if (best.kind === 'ready') expect(outcome.plan.bound.ready).toBeLessThanOrEqual(best.ready);
        }),
        { numRuns: 60, endOnFailure: true },
      );
    },
    PATIENCE,
  );

  it('finds the same plan again by its counts of passes and steps when the clock stopped it', () => {
    let steps = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const yard = crowdedYard(seed);
      let asked = 0;
      const stopped = solve(yard, { seed, shouldStop: () => asked++ >= 40 + 9 * seed });
      if (stopped.kind === 'no plan') continue;
      const { plan } = stopped;
      steps += plan.steps ?? 0;
      const again = solve(yard, { seed, schedules: plan.schedules, steps: plan.steps ?? 0 });
      expect(again.kind === 'plan' && again.plan.segments).toEqual(plan.segments);
    }
    expect(steps).toBeGreaterThan(100);
  });
});

/** Thirty tasks that get in each other's way: no bound closes them at once. */
function crowdedYard(seed: number): Problem {
  const random = new Random(seed);
  const tools = [0, 1, 2].map((k) => ({ id: `t${k}`, name: `tool ${k}`, capacity: 10, spans: [] }));
  const tasks = Array.from({ length: 30 }, (_, i) =>
    task(`task ${i}`, 1 + random.below(9), {
      tools: tools.flatMap((_one, tool) =>
        random.below(3) > 0 ? [{ tool, count: 1 + random.below(7) }] : [],
      ),
    }),
  );
  const links = tasks.flatMap((_, after) => (after < 4 ? [] : [link(random.below(after), after)]));
  return problem({ tools, tasks, links });
}
