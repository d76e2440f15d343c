import fc from 'fast-check';
import { verifyPlan } from '../../../test/engine/verify-plan.js';
import { checkProblem } from './check.js';
import type { Plan } from './plan.js';
import type { Problem } from './problem.js';
import { randomYard } from './random-yard.fixture.js';
import { solve } from './solve.js';

function planned(problem: Problem, seed = 1, schedules = 60): Plan | null {
  const outcome = solve(problem, { seed, schedules });
  return outcome.kind === 'plan' ? outcome.plan : null;
}

describe('A plan for any yard', () => {
  it('breaks no rule: people, skills, clearances, links, tools, openings, caps, turnouts, postings', () => {
    let plans = 0;
    fc.assert(
      fc.property(randomYard(), (problem) => {
        expect(checkProblem(problem).filter((fault) => fault.kind === 'malformed')).toEqual([]);
        const plan = planned(problem);
        if (!plan) return;
        plans++;
        expect(verifyPlan(problem, plan)).toEqual([]);
      }),
      { numRuns: 160 },
    );
    expect(plans).toBeGreaterThan(30);
  });

  it('is always found where everybody comes and knows how', () => {
    fc.assert(
      fc.property(randomYard({ easy: true, tasks: 8 }), (problem) => {
        const outcome = solve(problem, { seed: 2, schedules: 30 });
        expect(outcome.kind === 'plan' ? verifyPlan(problem, outcome.plan) : outcome.wishes).toEqual([]);
      }),
      { numRuns: 80 },
    );
  });

  it('is the same plan for the same yard, seed and budget', () => {
    fc.assert(
      fc.property(randomYard({ tasks: 8 }), fc.nat(), (problem, seed) => {
        expect(solve(problem, { seed, schedules: 50 })).toEqual(solve(problem, { seed, schedules: 50 }));
      }),
      { numRuns: 40 },
    );
  });

  it('is found again by its count of passes when the search was stopped by the clock', () => {
    fc.assert(
      fc.property(randomYard({ tasks: 8 }), fc.integer({ min: 0, max: 12 }), (problem, patience) => {
        let asked = 0;
        const stopped = solve(problem, { seed: 4, shouldStop: () => asked++ >= patience });
        if (stopped.kind === 'no plan') return;
        const { schedules, steps = 0 } = stopped.plan;
        const again = solve(problem, { seed: 4, schedules, steps });
        expect(again.kind === 'plan' && again.plan.segments).toEqual(stopped.plan.segments);
      }),
      { numRuns: 60 },
    );
  });

  it('is drawn again in one pass when it is the plan in force', () => {
    fc.assert(
      fc.property(randomYard(), (yard) => {
        const problem = { ...yard, posted: [] };
        const inForce = planned(problem);
        if (!inForce) return;
        const again = solve(problem, { seed: 9, schedules: 1, warm: inForce });
        expect(again.kind === 'plan' && again.plan.ready).toBe(inForce.ready);
        expect(again.kind === 'plan' && again.plan.segments).toEqual(inForce.segments);
      }),
      { numRuns: 100 },
    );
  });

  it('comes at once, and only ever gets better', () => {
    fc.assert(
      fc.property(randomYard(), (problem) => {
        const told: Plan[] = [];
        const outcome = solve(problem, { seed: 5, schedules: 100, onBetter: (plan) => told.push(plan) });
        if (outcome.kind === 'no plan') return;
        expect(told[0].schedules).toBeLessThanOrEqual(100);
        for (let k = 1; k < told.length; k++) {
          const sooner = told[k].ready < told[k - 1].ready;
          expect(sooner || told[k].postingsChanged < told[k - 1].postingsChanged).toBe(true);
        }
        expect(outcome.plan.segments).toEqual(told[told.length - 1].segments);
      }),
      { numRuns: 60 },
    );
  });

  it('says what can not hold where there is no plan', () => {
    fc.assert(
      fc.property(randomYard(), (problem) => {
        const outcome = solve(problem, { seed: 3, schedules: 20 });
        if (outcome.kind === 'no plan') expect(outcome.wishes.length).toBeGreaterThan(0);
      }),
      { numRuns: 80 },
    );
  });
});
