import fc from 'fast-check';
import { link, person, problem as small, task, turnout, work } from '../../../test/engine/small-problem.js';
import { verifyPlan } from '../../../test/engine/verify-plan.js';
import { checkProblem } from './check.js';
import type { Plan } from './plan.js';
import type { Minute, Problem } from './problem.js';
import { randomYard } from './random-yard.fixture.js';
import { redraw } from './redraw.js';
import { solve, type OtherSearch } from './solve.js';

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

  it('opens nothing while a hold that has begun still has something open that the same limit counts', () => {
    const day = turnout(0, 1000);
    const elements = ['frame 12', 'frame 13'].map((name) => ({ id: name, name }));
    const hold = { effort: { kind: 'hold' }, progress: { kind: 'under way', startedAt: -100 } } as const;
    const yard = small({
      turnouts: [day],
      people: [person('Ada', [], [day])],
      elements,
      openingLimits: [{ id: 'neighbours', name: 'neighbours', elements: [0, 1], atMost: 1 }],
      tasks: [
        work('the seat is plugged', 240, 1),
        task('frame 12 is looked at', 0, { ...hold, opens: [0], closes: [0] }),
        task('frame 13 is out', 60, { opens: [1], closes: [1] }),
      ],
      links: [link(0, 1, { relation: 'finish-to-finish' })],
    });
    const plan = planned(yard);
    expect(plan && verifyPlan(yard, plan)).toEqual([]);
    expect(plan?.tasks.map(({ start }) => start)).toEqual([0, -100, 240]);
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

  it('is nearly always drawn again in one pass when it is the plan in force', () => {
    let plans = 0;
    let same = 0;
    fc.assert(
      fc.property(randomYard(), (yard) => {
        const problem = { ...yard, posted: [] };
        const inForce = planned(problem);
        if (!inForce) return;
        const again = solve(problem, { seed: 9, schedules: 1, warm: inForce });
        if (again.kind === 'no plan') throw new Error('it is not found again');
        expect(verifyPlan(problem, again.plan)).toEqual([]);
        plans++;
        // Keeping the crews of the plan in force may let a task begin at another minute.
        if (JSON.stringify(again.plan.segments) === JSON.stringify(inForce.segments)) same++;
      }),
      { numRuns: 100 },
    );
    expect(same).toBeGreaterThan(plans * 0.9);
  });

  it('has no bound above it where a lean crew that ends on time starts sooner', () => {
    const turnouts = [turnout(0, 400)];
    const yard = small({
      turnouts,
      people: ['Ada', 'Bo', 'Cy'].map((name) => person(name, [], turnouts)),
      tasks: [
        { ...work('glue', 60, 1), crew: { min: 1, efficient: 3, max: 3 }, oneGo: true },
        { ...work('clamp', 10, 1) },
        { ...work('wait', 100, 1) },
      ],
      links: [
        { before: 2, after: 0, relation: 'finish-to-finish', lag: 0, lagKind: 'working' },
        { before: 0, after: 1, relation: 'start-to-start', lag: 90, lagKind: 'working' },
      ],
    });
    const plan = planned(yard, 1, 200);
    expect(plan && verifyPlan(yard, plan)).toEqual([]);
  });

  it('is drawn again exactly from what it says of itself, whichever search found it', () => {
    fc.assert(
      fc.property(randomYard(), (problem) => {
        const plan = planned(problem);
        if (!plan) return;
        expect(redraw(problem, JSON.parse(JSON.stringify(plan)) as Plan)).toEqual(plan);
      }),
      { numRuns: 120 },
    );
  });

  it('keeps a place that was only asked for where she is ready no later, and is drawn again with it', () => {
    const turnouts = [turnout(0, 100), turnout(200, 300), turnout(400, 500)];
    const yard = small({
      turnouts,
      people: ['Ada', 'Bo'].map((name) => person(name, [], turnouts)),
      tasks: [work('sweep', 50, 1), work('saw', 250, 1)],
      // Sooner is possible, and no better.
      posted: [{ task: 0, turnout: 1, person: 1, firm: false }],
    });
    const plan = planned(yard);
    expect(plan).toMatchObject({ ready: 450, postingsChanged: 0, drawn: { held: [0] } });
    expect(plan && redraw(yard, plan)).toEqual(plan);
  });

  it('is no worse than the best that another search offers, and is drawn again all the same', () => {
    fc.assert(
      fc.property(randomYard({ tasks: 8 }), (problem) => {
        const best = planned(problem, 1, 200);
        if (!best?.drawn) return;
        const { order, crewing } = best.drawn;
        const told: Minute[] = [];
        const other: OtherSearch = {
          bounds: true,
          news: () => ({
            drawn: { list: Int32Array.from(order), hands: Uint8Array.from(crewing) },
            bound: best.bound,
          }),
          better: (drawn) => told.push(drawn.ready),
          bound: () => undefined,
        };
        let asked = 0;
        const outcome = solve(problem, { seed: 2, shouldStop: () => asked++ > 3, other });
        if (outcome.kind === 'no plan') throw new Error('there is one');
        const { plan } = outcome;
        expect(verifyPlan(problem, plan)).toEqual([]);
        expect(plan.ready).toBeLessThanOrEqual(best.ready);
        expect(redraw(problem, plan)).toEqual(plan);
        // It tells of its own, the last of which is its answer.
        expect(told.at(-1)).toBe(plan.ready);
      }),
      { numRuns: 60 },
    );
  });

  it('waits to be told while nobody listens, and only the newest is told then', () => {
    let waited = 0;
    fc.assert(
      fc.property(randomYard({ easy: true, tasks: 25 }), (problem) => {
        const heard = (isListening: () => boolean) => {
          const told: Minute[] = [];
          const onBetter = (plan: Plan) => told.push(plan.ready);
          solve(problem, { seed: 1, schedules: 100, isListening, onBetter });
          return told;
        };
        const all = heard(() => true);
        expect(heard(() => false)).toEqual([]);
        let asked = 0;
        const later = heard(() => asked++ > 1);
        expect(all).toEqual(expect.arrayContaining(later));
        if (later.length > 0 && later.length < all.length) waited++;
      }),
      { numRuns: 60 },
    );
    expect(waited).toBeGreaterThan(0);
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
