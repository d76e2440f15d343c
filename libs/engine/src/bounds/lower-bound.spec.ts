import { NEVER } from '../calendar.js';
import type { Person, Problem, Task, Turnout } from '../problem.js';
import { lowerBound } from './lower-bound.js';

const turnouts: Turnout[] = Array.from({ length: 20 }, (_, d) => ({
  id: `${d}`,
  start: d * 1000,
  end: d * 1000 + 100,
}));

function task(more: Partial<Task>): Task {
  return {
    id: 'task',
    name: 'task',
    effort: { kind: 'fixed', minutes: 50 },
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

/** Comes to every `each`-th turnout, from the first on. */
function person(levels: number[], each = 1, more: Partial<Person> = {}): Person {
  return {
    id: 'p',
    name: 'p',
    levels,
    stays: turnouts.flatMap(({ start, end }, w) =>
      w % each === 0 ? [{ turnout: w, from: start, to: end, showUp: 1 }] : [],
    ),
    clearances: [],
    minutesAWeek: null,
    minutesATurnout: null,
    ...more,
  };
}

function yard(tasks: Task[], more: Partial<Problem> = {}): Problem {
  return {
    format: 'ribband-problem/1',
    now: 0,
    horizon: 19_100,
    skills: ['saw', 'caulk'].map((name) => ({ id: name, name })),
    clearances: [],
    turnouts,
    people: [],
    tools: [],
    elements: [],
    openingLimits: [],
    tasks,
    links: [],
    posted: [],
    aim: { gate: 19_100, slots: [19_100] },
    ...more,
  };
}

const sawing = (personMinutes: number, more: Partial<Task> = {}) =>
  task({
    effort: { kind: 'work', personMinutes },
    crew: { min: 1, efficient: 1, max: 1 },
    seats: [{ skill: 0, level: 2, count: 1, clearances: [] }],
    oneGo: false,
    ...more,
  });

describe('the earliest ready minute that is not ruled out', () => {
  it('follows the links when nothing else is short', () => {
    const links = [
      { before: 0, after: 1, relation: 'finish-to-start' as const, lag: 10, lagKind: 'elapsed' as const },
    ];
    expect(lowerBound(yard([task({}), task({})], { links }))).toEqual({
      ready: 1050,
      kind: 'critical path',
      bottleneck: null,
    });
  });

  it('waits for the only sawyer, who comes every third turnout', () => {
    const people = [person([2, 0], 3), person([0, 2])];
    expect(lowerBound(yard([sawing(250)], { people })).ready).toBe(6050);
  });

  it('counts a crew no larger than who is there at once', () => {
    const people = [person([2, 0]), person([2, 0], 2), person([0, 0], 2)];
    const carry = task({
      effort: { kind: 'work', personMinutes: 650 },
      crew: { min: 1, efficient: 5, max: 5 },
      oneGo: false,
    });
    expect(lowerBound(yard([carry], { people })).ready).toBe(2084);
  });

  it('lets one machine do one thing at a time', () => {
    const tools = [{ id: 's', name: 'ship saw', capacity: 1, spans: [] }];
    const cut = task({ effort: { kind: 'fixed', minutes: 40 }, tools: [{ tool: 0, count: 1 }] });
    const bound = lowerBound(yard([cut, cut, cut, cut, cut], { tools }));
    expect(bound.ready).toBe(2040);
    expect(bound.kind).toBe('resource energy');
  });

  it('names the skill and the people who are asked for more than they can give', () => {
    const people = [person([2, 0]), person([0, 2]), person([0, 2])];
    const tasks = [sawing(150), sawing(150), sawing(120)];
    const bound = lowerBound(yard(tasks, { people }));
    expect(bound.ready).toBe(4020);
    expect(bound.bottleneck).toMatchObject({ skills: [0], people: [0], needed: 420, from: 0 });
    expect(bound.bottleneck!.there).toBeLessThan(420);
  });

  it('keeps the hours that people have set as their most', () => {
    const people = [person([2, 0], 1, { minutesATurnout: 30 })];
    const bound = lowerBound(yard([sawing(60), sawing(60)], { people }));
    expect(bound.ready).toBeGreaterThan(3000);
    expect(bound.ready).toBeLessThanOrEqual(3030);
    expect(bound.kind).toBe('skill load');
    expect(bound.bottleneck).toMatchObject({ skills: [0], people: [0] });
  });

  it('sees that two jobs of one person with tight windows come one after the other', () => {
    const people = [person([2, 0])];
    const tasks = [60, 60, 30].map((minutes) => sawing(minutes, { oneGo: true }));
    expect(lowerBound(yard(tasks, { people })).ready).toBe(1060);
  });

  it('opens one frame after the other where only one may be open', () => {
    const elements = ['12', '13', '14'].map((name) => ({ id: name, name: `frame ${name}` }));
    const openingLimits = [{ id: 'fore', name: 'fore body', elements: [0, 1, 2], atMost: 1 }];
    const tasks = elements.flatMap((_, e) => [
      task({ effort: { kind: 'fixed', minutes: 20 }, opens: [e], oneGo: false }),
      task({ effort: { kind: 'elapsed', minutes: 500 } }),
      task({ effort: { kind: 'fixed', minutes: 60 }, closes: [e], oneGo: false }),
    ]);
    const links = [0, 1, 3, 4, 6, 7].map((before) => ({
      before,
      after: before + 1,
      relation: 'finish-to-start' as const,
      lag: 0,
      lagKind: 'working' as const,
    }));
    const free = lowerBound(yard(tasks, { elements, links }));
    expect(free.ready).toBe(1060);
    const bound = lowerBound(yard(tasks, { elements, links, openingLimits }));
    expect(bound.ready).toBe(2040);
    const begun = structuredClone(yard(tasks, { elements, links, openingLimits, now: 50 }));
    for (const i of [0, 3]) begun.tasks[i].progress = { kind: 'under way', startedAt: 0 };
    expect(lowerBound(begun).ready).toBeLessThan(NEVER);
  });

  it('does not ask of what has begun when it could have begun', () => {
    const begun = task({ effort: { kind: 'elapsed', minutes: 30 } });
    begun.progress = { kind: 'under way', startedAt: 10 };
    const tasks = [begun, task({ effort: { kind: 'fixed', minutes: 100 } })];
    const links = [
      { before: 0, after: 1, relation: 'start-to-start' as const, lag: 50, lagKind: 'elapsed' as const },
    ];
    const bound = lowerBound(yard(tasks, { links, now: 100, turnouts: [{ id: 'w', start: 0, end: 1000 }] }));
    expect(bound.ready).toBe(200);
  });

  it('never counts on those who do not come, and says when there is no plan', () => {
    const people = [person([2, 0])];
    for (const stay of people[0].stays) stay.showUp = 0;
    expect(lowerBound(yard([sawing(10)], { people })).ready).toBe(NEVER);
    expect(lowerBound(yard([sawing(3000)], { people: [person([2, 0])] })).ready).toBe(NEVER);
  });

  it('finds by supposing what it misses by narrowing', () => {
    const tools = [{ id: 'r', name: 'riggers', capacity: 4, spans: [] }];
    const jobs: [number, number][] = [
      [2, 3],
      [4, 2],
      [5, 1],
      [4, 1],
      [4, 1],
      [4, 1],
    ];
    const tasks = jobs.map(([minutes, count]) =>
      task({ effort: { kind: 'fixed', minutes }, tools: [{ tool: 0, count }] }),
    );
    const links = [
      [4, 5],
      [0, 1],
    ].map(([before, after]) => ({
      before,
      after,
      relation: 'finish-to-start' as const,
      lag: 0,
      lagKind: 'working' as const,
    }));
    const problem = yard(tasks, { tools, links });
    const narrowed = lowerBound(problem);
    expect(narrowed.ready).toBe(9);
    const shaved = lowerBound(problem, { from: narrowed, probes: 400 });
    expect(shaved).toEqual({ ready: 10, kind: 'destructive', bottleneck: null });
    expect(lowerBound(problem, { probes: 400 })).toEqual(shaved);
  });

  it('stops at the plan in hand and when told to', () => {
    const people = [person([2, 0])];
    const tasks = [sawing(150), sawing(150), sawing(120)];
    expect(lowerBound(yard(tasks, { people }), { upTo: 3050 }).ready).toBe(3050);
    expect(lowerBound(yard(tasks, { people }), { shouldStop: () => true }).kind).toBe('critical path');
  });
});
