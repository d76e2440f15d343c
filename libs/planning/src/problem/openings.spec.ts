import { solve } from '@ribband/engine';
import { courseOf } from '@ribband/repair';
import fc from 'fast-check';
import { randomYard } from '../../../engine/src/random-yard.fixture.js';
import { seenOpenings } from './openings.js';
import { verifyPlan } from '../../../../test/engine/verify-plan.js';
import { buildProblem } from './build-problem.js';
import { hand, link, records, task } from './yard-records.fixture.js';

const isOpen = (state: string | undefined): boolean =>
  state !== undefined && state !== 'standing' && state !== 'closed';

describe('what the plan is told of openings', () => {
  const yard = (seen: 'open' | 'shut' | null, over: { begun?: number | null; shut?: boolean } = {}) => ({
    elements: [{ id: 'frame-12', name: 'frame 12', seen }],
    tasks: [
      task('draw', { opens: ['frame-12'], startedAt: over.begun ?? null }),
      task('set', { closes: ['frame-12'], state: over.shut ? 'done' : 'open' }),
    ],
    openingLimits: [
      { id: 'pair', name: 'pair', elementIds: ['frame-12', 'frame-13'], atMost: 1, spared: null },
    ],
  });
  const told = (...given: Parameters<typeof yard>) => {
    const openings = seenOpenings(yard(...given));
    return { opens: openings.opens('draw'), closes: openings.closes('set'), limit: openings.limits[0] };
  };

  it('is what its tasks say, where nobody saw anything else', () => {
    expect(told(null)).toMatchObject({ opens: ['frame-12'], closes: ['frame-12'], limit: { atMost: 1 } });
    expect(told('open', { begun: 5 })).toMatchObject({ opens: ['frame-12'], closes: ['frame-12'] });
  });

  it('has a frame that was seen out before its work began open from the first', () => {
    expect(told('open')).toMatchObject({ opens: [], closes: ['frame-12'], limit: { atMost: 1 } });
  });

  it('counts a frame that no work will shut again for good', () => {
    expect(told('open', { begun: 5, shut: true })).toEqual({
      opens: [],
      closes: [],
      limit: { id: 'pair', name: 'pair', elementIds: ['frame-13'], atMost: 0, fromOn: null },
    });
  });

  it('no longer counts a frame that was seen shut', () => {
    expect(told('shut', { begun: 5 })).toMatchObject({ opens: [], closes: [], limit: { atMost: 1 } });
  });
});

describe('a limit that the shipwright has set aside', () => {
  const frames = [
    { id: 'frame-12', name: 'frame 12', seen: null },
    { id: 'frame-13', name: 'frame 13', seen: null },
  ];
  /** Two neighbouring frames, a turnout out and a turnout back in each, and hands for both at once. */
  const yard = (spared: { elementIds: string[]; untilOn: string | null } | null) =>
    records({
      elements: frames,
      openingLimits: [{ id: 'pair', name: 'pair', elementIds: ['frame-12', 'frame-13'], atMost: 1, spared }],
      tasks: [12, 13].flatMap((frame) => [
        task(`draw-${frame}`, { opens: [`frame-${frame}`], crew: { min: 1, efficient: 1, max: 1 } }),
        task(`set-${frame}`, { closes: [`frame-${frame}`], crew: { min: 1, efficient: 1, max: 1 } }),
      ]),
      links: [link('draw-12', 'set-12'), link('draw-13', 'set-13')],
      hands: [hand('Orla'), hand('Piet')],
    });
  const planned = (...given: Parameters<typeof yard>) => {
    const { problem } = buildProblem(yard(...given));
    const outcome = solve(problem, { seed: 1, schedules: 100 });
    if (outcome.kind !== 'plan') throw new Error('there is a plan');
    expect(verifyPlan(problem, outcome.plan)).toEqual([]);
    const day = (minute: number) => Math.floor(minute / (24 * 60));
    return { problem, ready: day(outcome.plan.ready), tasks: outcome.plan.tasks.map((one) => day(one.end)) };
  };
  const both = ['frame-12', 'frame-13'];

  // The haul-out, day 0, is a Saturday; turnouts are on days 0, 1, 7 and 8.
  it('has both frames out at once as long as both are back on its last day', () => {
    expect(planned(null).ready).toBe(8);
    expect(planned({ elementIds: both, untilOn: null }).ready).toBe(1);
    expect(planned({ elementIds: both, untilOn: '2027-03-07' }).ready).toBe(1);
  });

  it('does not begin with the second where it would not be back by then', () => {
    const { ready, tasks } = planned({ elementIds: ['frame-13'], untilOn: '2027-03-06' });
    expect(ready).toBe(8);
    expect([...tasks].sort((a, b) => a - b)).toEqual([0, 1, 7, 8]);
  });

  it('is counted for the others now, and whole from the day after its last', () => {
    const { openingLimits } = planned({ elementIds: ['frame-13'], untilOn: '2027-03-07' }).problem;
    expect(openingLimits).toEqual([
      { id: 'pair', name: 'pair', elements: [0], atMost: 1 },
      { id: 'pair', name: 'pair', elements: [0, 1], atMost: 1, from: 2 * 24 * 60 },
    ]);
  });
});

describe('every plan of a random yard', () => {
  it('keeps each limit at every minute, and the map shows what its segments say', () => {
    let plans = 0;
    fc.assert(
      fc.property(randomYard({ easy: true, tasks: 10 }), (problem) => {
        const outcome = solve(problem, { seed: 1, schedules: 20 });
        if (outcome.kind !== 'plan') return;
        plans += 1;
        const { plan } = outcome;
        const startOf = (index: number) =>
          Math.min(...plan.segments.filter(({ task: i }) => i === index).map(({ start }) => start));
        const endOf = (index: number) =>
          Math.max(...plan.segments.filter(({ task: i }) => i === index).map(({ end }) => end));
        const elements = problem.elements.map((_, e) => {
          const opener = problem.tasks.findIndex(({ opens }) => opens.includes(e));
          const closer = problem.tasks.findIndex(({ closes }) => closes.includes(e));
          const at = (index: number) => {
            if (index < 0) return { start: null, end: null };
            const { start, end } = plan.tasks[index];
            return { start, end };
          };
          return { opener, closer, course: courseOf({ opener: at(opener), closer: at(closer) }) };
        });
        const minutes = [...new Set(plan.tasks.flatMap(({ start, end }) => [start, end]))];
        for (const minute of minutes) {
          const open = elements.map(({ opener, course }) =>
            opener < 0 ? false : isOpen(course.findLast(({ at }) => at <= minute)?.state),
          );
          const inForce = problem.openingLimits.filter(({ from = 0 }) => from <= minute);
          for (const { elements: counted, atMost } of inForce)
            expect(counted.filter((e) => open[e]).length).toBeLessThanOrEqual(atMost);
          elements.forEach(({ opener, closer }, e) => {
            const hasWork = (index: number) => plan.segments.some(({ task: i }) => i === index);
            if (opener < 0 || closer < 0 || !hasWork(opener) || !hasWork(closer)) return;
            expect(open[e]).toBe(startOf(opener) <= minute && minute < endOf(closer));
          });
        }
      }),
      { numRuns: 60 },
    );
    expect(plans).toBeGreaterThan(20);
  });
});
