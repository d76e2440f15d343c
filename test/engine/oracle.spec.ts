import { checkProblem } from '@ribband/engine';
import fc from 'fast-check';
import { oracle } from './oracle.js';
import { link, person, problem, task, turnout, work } from './small-problem.js';
import { tinyYard } from './tiny-yard.js';
import { verifyPlan } from './verify-plan.js';

const turnouts = [turnout(0, 4), turnout(6, 10)];
const hands = ['Ada', 'Bo'].map((name) => person(name, [2], turnouts));

function ready(parts: Parameters<typeof problem>[0]): number | string {
  const found = oracle(problem({ turnouts, people: hands, skills: [{ id: 's', name: 's' }], ...parts }));
  return found.kind === 'ready' ? found.ready : found.kind;
}

describe('the oracle', () => {
  it('knows small yards by heart', () => {
    expect(ready({ tasks: [work('a', 6, 2)] })).toBe(3);
    expect(ready({ tasks: [work('a', 6, 1)] })).toBe(8);
    expect(ready({ tasks: [work('a', 6, 1, { setUpMinutes: 1 })] })).toBe(9);
    expect(ready({ tasks: [work('a', 6, 1, { oneGo: true })] })).toBe('no plan');
    expect(ready({ tasks: [work('a', 4, 2), work('b', 4, 2)] })).toBe(4);
    expect(ready({ tasks: [work('a', 4, 1), work('b', 4, 1), work('c', 2, 1)] })).toBe(8);
    expect(ready({ tasks: [task('a', 3), task('b', 2)], links: [link(0, 1)] })).toBe(8);
    expect(ready({ tasks: [task('a', 3), task('b', 2)], links: [link(0, 1, { lag: -1 })] })).toBe(4);
  });

  it('makes plans that keep every rule', () => {
    let plans = 0;
    fc.assert(
      fc.property(fc.gen(), (g) => {
        const yard = tinyYard(g);
        expect(checkProblem(yard).filter((fault) => fault.kind === 'malformed')).toEqual([]);
        const found = oracle(yard, 4000);
        if (found.kind !== 'ready') return;
        plans++;
        expect(verifyPlan(yard, found.plan)).toEqual([]);
      }),
      { numRuns: 60, endOnFailure: true },
    );
    expect(plans).toBeGreaterThan(10);
  }, 180_000);
});
