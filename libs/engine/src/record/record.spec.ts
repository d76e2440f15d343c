import { problem, task, turnout, work, person } from '../../../../test/engine/small-problem.js';
import { solve } from '../solve.js';
import type { Problem } from '../problem.js';
import { driftOf } from './drift.js';
import { earnedSchedule } from './earned-schedule.js';
import { earnedFigures, executionIndex, pathLengthIndex } from './earned-value.js';
import { qualityPoints } from './quality.js';

describe('earned value', () => {
  it('gives the figures of an example worked by hand (terms of EIA-748, from memory)', () => {
    const figures = earnedFigures({ budget: 1200, planned: 480, earned: 420, actual: 460 });
    expect(figures.scheduleVariance).toBe(-60);
    expect(figures.costVariance).toBe(-40);
    expect(figures.spi).toBeCloseTo(0.875, 3);
    expect(figures.cpi).toBeCloseTo(0.913, 3);
    expect(figures.estimateAtCompletion).toBeCloseTo(1314.3, 1);
    expect(figures.toComplete).toBeCloseTo(1.054, 3);
  });

  it('says nothing where nothing was planned or spent yet', () => {
    const figures = earnedFigures({ budget: 100, planned: 0, earned: 0, actual: 0 });
    expect(figures).toMatchObject({ spi: null, cpi: null, estimateAtCompletion: null, toComplete: 1 });
  });

  it('has 45 done of 50 wanted as 0.90, and 5 late on a way of 60 as 0.917 (DCMA check of 2005, from memory)', () => {
    expect(executionIndex(45, 50)).toBeCloseTo(0.9, 6);
    expect(pathLengthIndex(60, -5)).toBeCloseTo(0.917, 3);
    expect(executionIndex(0, 0)).toBeNull();
  });
});

describe('earned schedule', () => {
  const baseline = [0, 100, 300, 600, 1000].map((planned, month) => ({ minute: month, planned }));

  it('is the time at which the baseline wanted done what is done now (definition of Lipke 2003, by hand)', () => {
    expect(earnedSchedule(baseline, 200, 3)).toEqual({ earnedMinute: 1.5, spiT: 0.5 });
    expect(earnedSchedule(baseline, 600, 3)).toEqual({ earnedMinute: 3, spiT: 1 });
  });

  it('still says at the end how late it was, where SPI is 1', () => {
    expect(earnedSchedule(baseline, 1000, 5)).toEqual({ earnedMinute: 4, spiT: 0.8 });
    expect(earnedFigures({ budget: 1000, planned: 1000, earned: 1000, actual: 900 }).spi).toBe(1);
  });

  it('has no pace before time has gone by, and none without a baseline', () => {
    expect(earnedSchedule(baseline, 0, 0)).toEqual({ earnedMinute: 0, spiT: null });
    expect(earnedSchedule([], 10, 5)).toBeNull();
  });
});

describe('the drift of a date', () => {
  const weeks = (dates: number[]) => dates.map((date, week) => ({ on: 7 * week, date }));

  it('is told from the week in which it broke', () => {
    const drift = driftOf(weeks([100, 100, 100, 100, 102, 104, 106, 108]));
    expect(drift?.daysAWeek).toBeCloseTo(2, 6);
    expect(drift?.since).toBe(3);
  });

  it('is not made up out of one odd week', () => {
    const drift = driftOf(weeks([100, 100, 112, 100, 100, 100, 100]));
    expect(drift?.daysAWeek).toBeCloseTo(0, 6);
  });

  it('is the whole line where that never broke, and wants three points', () => {
    expect(driftOf(weeks([100, 101, 102, 103, 104]))).toEqual({ daysAWeek: 1, since: 0 });
    expect(driftOf(weeks([100, 101]))).toBeNull();
  });
});

describe('the schedule quality points', () => {
  const turnouts = Array.from({ length: 60 }, (_, w) => turnout(w * 1000, w * 1000 + 300));
  const links: Problem['links'] = [
    { before: 0, after: 1, relation: 'finish-to-start', lag: 0, lagKind: 'elapsed' },
    { before: 1, after: 2, relation: 'finish-to-start', lag: 60, lagKind: 'working' },
    { before: 1, after: 3, relation: 'start-to-start', lag: -30, lagKind: 'working' },
  ];
  const parts = {
    turnouts,
    links,
    people: [person('Ada', [], turnouts)],
    tasks: [
      work('strip', 300, 1),
      work('frame', 300, 1),
      work('hang', 300, 1),
      work('paint', 300, 1),
      task('alone', 60),
    ],
  };
  const points = (more: Partial<Problem> = {}, baseline: { task: number; end: number }[] | null = null) => {
    const yard = problem({ ...parts, ...more });
    const outcome = solve(yard, { seed: 1, schedules: 30 });
    if (outcome.kind !== 'plan') throw new Error('there is a plan');
    return new Map(qualityPoints(yard, outcome.plan, baseline).map((point) => [point.kind, point]));
  };

  it('name the tasks without links, the leads, the lags and the other relations', () => {
    const found = points();
    expect(found.get('logic')?.tasks).toContain(4);
    expect(found.get('leads')).toMatchObject({ found: 1, of: 3, holds: false, tasks: [3] });
    expect(found.get('lags')).toMatchObject({ found: 1, tasks: [2] });
    expect(found.get('relations')).toMatchObject({ found: 1, holds: false, tasks: [3] });
    expect(found.get('no crew')).toMatchObject({ holds: false, tasks: [4] });
    expect(found.has('missed')).toBe(false);
  });

  it('see a way that is too short for the gate, and the tasks that are late for it', () => {
    const found = points({ aim: { gate: 1300, slots: [1300] } });
    expect(found.get('path length')?.holds).toBe(false);
    expect(found.get('negative float')?.tasks).toContain(2);
    expect(points().get('path length')?.holds).toBe(true);
    expect(points().get('negative float')).toMatchObject({ found: 0, holds: true });
  });

  it('try the links: what lengthens the longest way makes her ready later', () => {
    expect(points().get('path test')).toMatchObject({ holds: true, found: 0 });
  });

  it('hold against the baseline what it wanted done by now', () => {
    const wanted = [
      { task: 0, end: 500 },
      { task: 1, end: 1500 },
      { task: 2, end: 9000 },
    ];
    const done = { kind: 'done', startedAt: 0, endedAt: 300 } as const;
    const found = points(
      { now: 2000, tasks: parts.tasks.map((one, i) => (i === 0 ? { ...one, progress: done } : one)) },
      wanted,
    );
    expect(found.get('missed')).toMatchObject({ found: 1, of: 2, holds: false, tasks: [1] });
    expect(found.get('execution')).toMatchObject({ found: 0.5, holds: false });
  });
});
