import { lowerBound, type Plan, type Problem, redraw } from '@ribband/engine';
import { verifyPlan } from '../../../../test/engine/verify-plan.js';
import { person, problem, turnout, work } from '../../../../test/engine/small-problem.js';
import type { PlanInput } from '../plans/plan-input.js';
import { EngineThreads } from './engine-threads.js';
import { PlanningSettings } from './settings.js';

/** A yard with more work than is quickly proved, in which the hands of two skills are short by turns. */
function yard(): Problem {
  const turnouts = Array.from({ length: 60 }, (_, w) => turnout(w * 1000, w * 1000 + 240));
  const skills = ['saw', 'caulk'].map((name) => ({ id: name, name }));
  const people = [
    person('Ada', [2, 0], turnouts),
    person('Bo', [0, 2], turnouts),
    person('Cy', [2, 2], turnouts),
    person('Di', [0, 0], turnouts),
  ];
  const tasks = Array.from({ length: 36 }, (_, i) =>
    work(`job ${i}`, (i % 4 === 0 ? 60 : 130) + ((i * 97) % 160), 1 + (i % 3), {
      oneGo: i % 4 === 0,
      seats: i % 3 === 2 ? [] : [{ skill: i % 2, level: 2, count: 1, clearances: [] }],
    }),
  );
  const links = tasks.flatMap((_, i) =>
    i < 6
      ? []
      : [
          {
            before: i - 5 - (i % 2),
            after: i,
            relation: 'finish-to-start' as const,
            lag: 0,
            lagKind: 'elapsed' as const,
          },
        ],
  );
  return problem({ turnouts, skills, people, tasks, links });
}

const input: PlanInput = {
  format: 'ribband-plan-input/1',
  epochAt: 0,
  timeZone: 'UTC',
  slots: [],
  linkIds: [],
  problem: yard(),
  seed: 1,
  warm: null,
};

describe('the engine in its threads', () => {
  let threads: EngineThreads;
  const start = (count: number) => (threads = new EngineThreads(new PlanningSettings(1, count)));
  afterEach(() => threads.onApplicationShutdown());

  it('searches twice at once, and what comes out can be drawn again and breaks no rule', async () => {
    const told: Plan[] = [];
    const passes: number[] = [];
    const enough = new AbortController();
    const known = lowerBound(input.problem).ready;
    const outcome = await start(2).run(input, {
      millis: 40_000,
      signal: enough.signal,
      onBetter: (plan) => told.push(plan),
      onWork: ({ schedules, bound }) => {
        passes.push(schedules);
        if (bound >= known) enough.abort();
      },
    });
    if (outcome.kind === 'no plan') throw new Error('there is one');
    const { plan } = outcome;
    expect(verifyPlan(input.problem, plan)).toEqual([]);
    expect(redraw(input.problem, plan)?.segments).toEqual(plan.segments);
    // The first is told at once, before the time is up, and none is better than the answer.
    expect(told.length).toBeGreaterThan(0);
    for (const one of told) expect(one.ready).toBeGreaterThanOrEqual(plan.ready);
    // The other search has told how good a plan can be.
    expect(plan.bound.ready).toBeGreaterThanOrEqual(known);
    expect(plan.bound.ready).toBeLessThanOrEqual(plan.ready);
    expect(plan.schedules).toBeGreaterThanOrEqual(passes.at(-1) ?? 0);
  }, 60_000);

  it('gives the same plan for the same number of passes, also from a thread that has worked before', async () => {
    start(2);
    const one = await threads.run(input, { schedules: 120 });
    const again = await threads.run(input, { schedules: 120 });
    expect(again).toEqual(one);
    expect(one.kind === 'plan' && one.plan.schedules).toBe(120);
  }, 60_000);

  it('stops when told, with what it has', async () => {
    const stop = new AbortController();
    const outcome = await start(2).run(input, {
      signal: stop.signal,
      onBetter: () => {
        stop.abort();
      },
    });
    expect(outcome.kind).toBe('plan');
  }, 60_000);

  it('says so when a thread breaks off', async () => {
    const broken = { ...input, problem: { ...input.problem, tasks: null as unknown as Problem['tasks'] } };
    await expect(start(2).run(broken, { millis: 500 })).rejects.toThrow();
    // The next order goes to another thread.
    expect((await threads.run(input, { schedules: 3 })).kind).toBe('plan');
  }, 60_000);
});
