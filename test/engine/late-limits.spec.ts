import { lowerBound, type Problem, solve } from '@ribband/engine';
import fc from 'fast-check';
import { randomYard } from '../../libs/engine/src/random-yard.fixture.js';
import { oracle } from './oracle.js';
import { link, person, problem, turnout, work } from './small-problem.js';
import { tinyYard } from './tiny-yard.js';
import { verifyPlan } from './verify-plan.js';

/** Ten minutes of work out and ten back in for each of two frames, one pair of hands a frame. */
function twoFrames(from: number | undefined): Problem {
  const turnouts = [turnout(0, 100)];
  return problem({
    turnouts,
    horizon: 100,
    skills: [{ id: 's', name: 'shipwright' }],
    people: ['Ada', 'Bo'].map((name) => person(name, [2], turnouts)),
    elements: [0, 1].map((e) => ({ id: `f${e}`, name: `frame ${e + 1}` })),
    openingLimits: [{ id: 'pair', name: 'neighbours', elements: [0, 1], atMost: 1, from }],
    tasks: [
      work('draw 1', 10, 1, { opens: [0] }),
      work('set 1', 10, 1, { closes: [0] }),
      work('draw 2', 10, 1, { opens: [1] }),
      work('set 2', 10, 1, { closes: [1] }),
    ],
    links: [link(0, 1), link(2, 3)],
  });
}

function planOf(yard: Problem) {
  const outcome = solve(yard, { seed: 1, schedules: 50 });
  if (outcome.kind !== 'plan') throw new Error('there is a plan');
  expect(verifyPlan(yard, outcome.plan)).toEqual([]);
  return outcome.plan;
}

const comesLater = (yard: Problem) =>
  yard.openingLimits.some(({ from }) => from !== undefined && from > yard.now);

describe('a limit that is only in force from some minute on', () => {
  it('lets both frames be out before it, when both can be back by then', () => {
    expect(planOf(twoFrames(undefined)).ready).toBe(40);
    expect(planOf(twoFrames(20)).ready).toBe(20);
    expect(planOf(twoFrames(60)).ready).toBe(20);
  });

  it('has the second frame wait when not both can be back by then', () => {
    const { tasks, ready } = planOf(twoFrames(19));
    expect(ready).toBe(40);
    const [first, second] = tasks[0].start < tasks[2].start ? [0, 2] : [2, 0];
    expect(tasks[second].start).toBeGreaterThanOrEqual(tasks[first + 1].end);
    expect(tasks[second].heldBy).toEqual({ kind: 'opening', limit: 0, task: first + 1 });
  });

  it('leaves no float past it to what must be shut by then', () => {
    const yard = twoFrames(25);
    yard.openingLimits[0].atMost = 0;
    yard.people.push(person('Cy', [2], yard.turnouts));
    yard.tasks.push(work('caulk', 60, 1));
    const { tasks, ready } = planOf(yard);
    expect(ready).toBe(60);
    expect([0, 1, 2, 3].map((i) => tasks[i].end + tasks[i].float)).toEqual([15, 25, 15, 25]);
  });

  it('is like any other limit once its minute has passed', () => {
    const yard = { ...twoFrames(30), now: 30 };
    expect(planOf(yard).ready).toBe(70);
  });

  it('is kept by the plan of any yard, and lets some be ready sooner than if it were in force from the first', () => {
    let plans = 0;
    let sooner = 0;
    fc.assert(
      fc.property(randomYard({ tasks: 12, easy: true }), randomYard(), fc.nat(99), (easy, any, share) => {
        for (const sound of [easy, any]) {
          const elements = sound.elements.map((_, e) => e);
          const limited = (from?: number): Problem => ({
            ...sound,
            openingLimits: [{ id: 'l', name: 'all', elements, atMost: 1, from }],
          });
          const yard = limited(Math.round((sound.horizon * share) / 100));
          const outcome = solve(yard, { seed: 1, schedules: 40 });
          const stricter = solve(limited(), { seed: 1, schedules: 40 });
          if (stricter.kind === 'plan') expect(outcome.kind).toBe('plan');
          if (outcome.kind !== 'plan') continue;
          plans++;
          expect(verifyPlan(yard, outcome.plan)).toEqual([]);
          if (stricter.kind === 'plan' && outcome.plan.ready < stricter.plan.ready) sooner++;
        }
      }),
      { numRuns: 150, endOnFailure: true },
    );
    expect(plans).toBeGreaterThan(100);
    expect(sooner).toBeGreaterThan(0);
  }, 180_000);

  it('holds the best plan there is no later than a bound says, and is planned nearly as well', () => {
    let known = 0;
    let equal = 0;
    fc.assert(
      fc.property(fc.gen(), (g) => {
        const yard = tinyYard(g, 4, true);
        if (!comesLater(yard)) return;
        const best = oracle(yard, 3000);
        if (best.kind === 'gave up') return;
        const outcome = solve(yard, { seed: 1, schedules: 200 });
        if (outcome.kind === 'plan') {
          expect(verifyPlan(yard, outcome.plan)).toEqual([]);
          expect(best.kind).toBe('ready');
        }
        if (best.kind !== 'ready') return;
        known++;
        expect(verifyPlan(yard, best.plan)).toEqual([]);
        expect(lowerBound(yard).ready).toBeLessThanOrEqual(best.ready);
        if (outcome.kind !== 'plan') return;
        expect(outcome.plan.ready).toBeGreaterThanOrEqual(best.ready);
        if (outcome.plan.ready === best.ready) equal++;
      }),
      { numRuns: 500, endOnFailure: true },
    );
    expect(known).toBeGreaterThan(20);
    expect(equal / known).toBeGreaterThan(0.8);
  }, 180_000);
});
