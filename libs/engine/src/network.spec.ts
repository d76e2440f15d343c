import fc from 'fast-check';
import { NEVER } from './calendar.js';
import { network, type Network } from './network.js';
import type { Link, Problem, Relation, Task, Turnout } from './problem.js';

function task(minutes: number, more: Partial<Task> = {}): Task {
  return {
    id: 'task',
    name: 'task',
    effort: { kind: 'fixed', minutes },
    crew: { min: 0, efficient: 0, max: 0 },
    seats: [],
    clearances: [],
    oneGo: true,
    setUpMinutes: 0,
    extraHandShare: 0.5,
    learnerShare: 0.5,
    tools: [],
    opens: [],
    closes: [],
    notBefore: null,
    progress: { kind: 'waiting' },
    ...more,
  };
}

function yard(
  tasks: Task[],
  links: Partial<Link>[],
  turnouts: [number, number][],
  more: Partial<Problem> = {},
): Problem {
  return {
    format: 'ribband-problem/1',
    now: 0,
    horizon: 100_000,
    skills: [],
    clearances: [],
    turnouts: turnouts.map(([start, end]): Turnout => ({ id: `${start}`, start, end })),
    people: [],
    tools: [],
    elements: [],
    openingLimits: [],
    tasks,
    links: links.map((one) => ({
      before: 0,
      after: 1,
      relation: 'finish-to-start',
      lag: 0,
      lagKind: 'working',
      ...one,
    })),
    posted: [],
    aim: { gate: 1000, slots: [1000] },
    ...more,
  };
}

function dates(problem: Problem): Network {
  const found = network(problem);
  if (found.kind === 'circle') throw new Error(`circle ${found.tasks.join()}`);
  return found;
}

const days: [number, number][] = [
  [0, 10],
  [100, 110],
  [200, 210],
];

describe('the network pass over turnouts', () => {
  it('carries splittable work over nights and keeps one-go work together', () => {
    const split = dates(
      yard([task(4), task(12, { oneGo: false }), task(8)], [{}, { before: 1, after: 2 }], days),
    );
    expect([...split.earlyStart]).toEqual([0, 4, 200]);
    expect([...split.earlyFinish]).toEqual([4, 106, 208]);
    expect([...split.lateStart]).toEqual([4, 8, 200]);
    expect([...split.totalFloat]).toEqual([4, 4, 0]);
    expect([...split.freeFloat]).toEqual([0, 4, 0]);
    expect(split.criticalPath).toEqual([0, 1, 2]);
  });

  it('loses set-up at every return, and leaves out a start that would only buy set-up', () => {
    const long = task(15, { oneGo: false, setUpMinutes: 3 });
    expect([...dates(yard([long], [], days)).earlyFinish]).toEqual([108]);
    const late = dates(yard([task(8), long], [{}], days));
    expect([...late.earlyStart]).toEqual([0, 8]);
    expect([...late.earlyFinish]).toEqual([8, 208]);
    expect(late.lateStart[1]).toBe(100);
  });

  it('lets glue dry through the night and starts it at any minute', () => {
    const glue = task(0, { effort: { kind: 'elapsed', minutes: 95 } });
    const found = dates(yard([task(10), glue, task(5)], [{}, { before: 1, after: 2 }], days));
    expect([...found.earlyStart]).toEqual([0, 10, 105]);
    expect(found.ready).toBe(110);
  });

  it('counts working and elapsed lags apart, also negative ones', () => {
    const after = (lag: number, lagKind: Link['lagKind']) =>
      dates(yard([task(6), task(2)], [{ lag, lagKind }], days)).earlyStart[1];
    expect(after(5, 'working')).toBe(101);
    expect(after(5, 'elapsed')).toBe(100);
    expect(after(2, 'elapsed')).toBe(8);
    expect(after(-4, 'working')).toBe(2);
    expect(after(-60, 'elapsed')).toBe(0);
  });

  it('makes a say-so wait until somebody is at the yard', () => {
    const sayso = task(0, { effort: { kind: 'hold' }, crew: { min: 1, efficient: 1, max: 1 } });
    const found = dates(yard([task(6), sayso], [{ lag: 30, lagKind: 'elapsed' }], days));
    expect(found.earlyStart[1]).toBe(100);
    expect(dates(yard([task(10), sayso], [{}], days)).earlyStart[1]).toBe(10);
  });

  it('works at the pace of the efficient crew, no larger than there are people', () => {
    const person = {
      id: 'p',
      name: 'p',
      levels: [],
      clearances: [],
      minutesAWeek: null,
      minutesATurnout: null,
    };
    const people = [0, 1].map(() => ({ ...person, stays: [{ turnout: 0, from: 0, to: 10, showUp: 1 }] }));
    const job = task(0, {
      effort: { kind: 'work', personMinutes: 12 },
      crew: { min: 1, efficient: 3, max: 4 },
    });
    expect(dates(yard([job], [], days, { people })).earlyFinish[0]).toBe(6);
    const crowd = [...people, ...people, ...people];
    expect(dates(yard([job], [], days, { people: crowd })).earlyFinish[0]).toBe(4);
  });

  it('takes what is done as it was and what is under way from now on', () => {
    const tasks = [
      task(5, { progress: { kind: 'done', startedAt: 1, endedAt: 3 } }),
      task(5, { progress: { kind: 'under way', startedAt: 2 } }),
      task(4, { notBefore: 103 }),
    ];
    const found = dates(yard(tasks, [{}, { before: 1, after: 2 }], days, { now: 7 }));
    expect([...found.earlyStart]).toEqual([1, 2, 105]);
    expect([...found.earlyFinish]).toEqual([3, 105, 109]);
    expect(found.drivesStart[2]).toBe(1);
    expect(found.criticalPath).toEqual([1, 2]);
  });

  it('names the tasks that wait for each other in a circle', () => {
    const links = [
      { before: 0, after: 1 },
      { before: 1, after: 2 },
      { before: 2, after: 3 },
      { before: 3, after: 1 },
    ];
    const found = network(
      yard([task(1), task(1), task(1), task(1), task(1)], [...links, { before: 3, after: 4 }], days),
    );
    expect(found.kind).toBe('circle');
    const { tasks } = found as { tasks: number[] };
    expect([...tasks].sort()).toEqual([1, 2, 3]);
    tasks.forEach((a, k) => {
      expect(links).toContainEqual({ before: a, after: tasks[(k + 1) % 3] });
    });
  });

  it('shuts nothing before it is opened', () => {
    const elements = [{ id: 'f', name: 'frame' }];
    const tasks = [task(2, { closes: [0] }), task(3, { opens: [0], notBefore: 104 })];
    const found = dates(yard(tasks, [], days, { elements }));
    expect([...found.earlyStart]).toEqual([102, 104]);
    expect(found.drivesStart[0]).toBe(-1);
    expect(network(yard(tasks, [{ before: 0, after: 1 }], days, { elements })).kind).toBe('circle');
  });

  it('says so when the turnouts run out', () => {
    expect(dates(yard([task(11)], [], days)).ready).toBe(NEVER);
    expect(dates(yard([task(31, { oneGo: false })], [], days)).ready).toBe(NEVER);
  });
});

const relations: Relation[] = ['finish-to-start', 'start-to-start', 'finish-to-finish', 'start-to-finish'];
const anyTask = fc.record({
  minutes: fc.integer({ min: 0, max: 12 }),
  kind: fc.constantFrom('one go', 'split', 'elapsed', 'hold'),
  setUp: fc.nat(3),
});
const anyYard = fc
  .tuple(
    fc.array(anyTask, { minLength: 1, maxLength: 8 }),
    fc.array(
      fc.record({
        a: fc.nat(7),
        b: fc.nat(7),
        relation: fc.constantFrom(...relations),
        lag: fc.integer({ min: -8, max: 12 }),
        lagKind: fc.constantFrom('working' as const, 'elapsed' as const),
      }),
      { maxLength: 12 },
    ),
  )
  .map(([tasks, links]) => {
    const n = tasks.length;
    return yard(
      tasks.map(({ minutes, kind, setUp }) =>
        kind === 'elapsed'
          ? task(0, { effort: { kind, minutes } })
          : kind === 'hold'
            ? task(0, { effort: { kind } })
            : task(minutes, { oneGo: kind === 'one go', setUpMinutes: setUp }),
      ),
      links
        .map(({ a, b, ...rest }) => ({
          before: Math.min(a % n, b % n),
          after: Math.max(a % n, b % n),
          ...rest,
        }))
        .filter((one) => one.before !== one.after),
      Array.from({ length: 30 }, (_, d): [number, number] => [d * 40, d * 40 + 12]),
    );
  });

describe('the network pass on any yard', () => {
  it('has no late date before its early date, and a critical path without float that ends at ready', () => {
    fc.assert(
      fc.property(anyYard, (problem) => {
        const found = dates(problem);
        for (let i = 0; i < problem.tasks.length; i++) {
          expect(found.totalFloat[i]).toBeGreaterThanOrEqual(0);
          expect(found.freeFloat[i]).toBeGreaterThanOrEqual(0);
          expect(found.freeFloat[i]).toBeLessThanOrEqual(found.totalFloat[i]);
          expect(found.lateFinish[i]).toBeGreaterThanOrEqual(found.earlyFinish[i]);
          expect(found.lateFinish[i]).toBeLessThanOrEqual(found.ready);
        }
        expect(found.earlyFinish[found.criticalPath[found.criticalPath.length - 1]]).toBe(found.ready);
      }),
      { numRuns: 500 },
    );
  });

  it('moves ready exactly when a late start is passed', () => {
    fc.assert(
      fc.property(anyYard, fc.nat(7), (problem, pick) => {
        const i = pick % problem.tasks.length;
        const found = dates(problem);
        problem.tasks[i].notBefore = found.lateStart[i];
        expect(dates(problem).ready).toBe(found.ready);
        problem.tasks[i].notBefore = found.lateStart[i] + 1;
        expect(dates(problem).ready).toBeGreaterThan(found.ready);
      }),
      { numRuns: 300 },
    );
  });
});
