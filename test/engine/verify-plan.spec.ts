import type { Plan, Problem } from '@ribband/engine';
import { link, person, problem, task, turnout, work } from './small-problem.js';
import { verifyPlan } from './verify-plan.js';

const turnouts = [turnout(0, 60), turnout(100, 160)];

/** Ada saws, Bo learns it, Cy carries. Plank: 100 person-minutes; fit: 20 minutes in one go; glue dries; a say-so. */
const yard: Problem = problem({
  turnouts,
  skills: [{ id: 'saw', name: 'sawyer' }],
  clearances: [{ id: 'adult', name: 'of age' }],
  people: [
    person('Ada', [3], turnouts, { clearances: [{ clearance: 0, until: null }] }),
    person('Bo', [1], turnouts),
    person('Cy', [0], turnouts, { minutesATurnout: 50 }),
  ],
  tools: [{ id: 'bench', name: 'bench', capacity: 1, spans: [] }],
  elements: [
    { id: 'f1', name: 'frame 1' },
    { id: 'f2', name: 'frame 2' },
  ],
  openingLimits: [{ id: 'fore', name: 'fore body', elements: [0, 1], atMost: 1 }],
  tasks: [
    work('plank', 100, 2, {
      seats: [{ skill: 0, level: 2, count: 1, clearances: [0] }],
      setUpMinutes: 5,
      tools: [{ tool: 0, count: 1 }],
      opens: [0],
      closes: [0],
    }),
    task('fit', 20, { crew: { min: 1, efficient: 1, max: 1 }, notBefore: 20, opens: [1], closes: [1] }),
    task('glue', 0, { effort: { kind: 'elapsed', minutes: 30 } }),
    task('say-so', 0, {
      effort: { kind: 'hold' },
      crew: { min: 1, efficient: 1, max: 1 },
      seats: [{ skill: 0, level: 2, count: 1, clearances: [] }],
    }),
  ],
  links: [link(0, 2), link(1, 2, { relation: 'finish-to-finish', lag: 10 }), link(2, 3)],
  posted: [{ task: 0, turnout: 0, person: 0, firm: true }],
  aim: { gate: 150, slots: [100, 150] },
});

/** Ada and Bo work the plank at 1.5 a minute to the end of the day: 90 of 100, then set-up 5 and 10 by Ada alone. */
const sound: Plan = {
  format: 'ribband-plan/1',
  ready: 145,
  slot: 1,
  segments: [
    { task: 0, turnout: 0, start: 0, end: 60, crew: [hand(0, 0), hand(1, null)] },
    { task: 0, turnout: 1, start: 100, end: 115, crew: [hand(0, 0)] },
    { task: 1, turnout: 1, start: 115, end: 135, crew: [hand(2, null)] },
    { task: 2, turnout: null, start: 115, end: 145, crew: [] },
    { task: 3, turnout: 1, start: 145, end: 145, crew: [hand(0, 0)] },
  ],
  tasks: [
    { start: 0, end: 115, float: 0, heldBy: { kind: 'nothing' } },
    { start: 115, end: 135, float: 0, heldBy: { kind: 'opening', limit: 0, task: 0 } },
    { start: 115, end: 145, float: 0, heldBy: { kind: 'link', link: 0, task: 0 } },
    { start: 145, end: 145, float: 0, heldBy: { kind: 'link', link: 2, task: 2 } },
  ],
  launchChain: [
    { task: 0, heldBy: { kind: 'nothing' } },
    { task: 2, heldBy: { kind: 'link', link: 0, task: 0 } },
    { task: 3, heldBy: { kind: 'link', link: 2, task: 2 } },
  ],
  bound: { ready: 120, kind: 'critical path', bottleneck: null },
  proved: false,
  postingsChanged: 0,
  schedules: 1,
};

function hand(who: number, seat: number | null) {
  return { person: who, seat };
}

/** The rules broken once the yard or the plan is changed. */
function after(change: (plan: Plan, yard: Problem) => void): string[] {
  const plan = structuredClone(sound);
  const changed = structuredClone(yard);
  change(plan, changed);
  return [...new Set(verifyPlan(changed, plan).map((one) => one.rule))].sort();
}

describe('a plan read against its yard', () => {
  it('passes when it keeps every rule', () => {
    expect(verifyPlan(yard, sound)).toEqual([]);
  });

  const breaks: [string, string[], (plan: Plan, yard: Problem) => void][] = [
    [
      'somebody in two places',
      ['opening', 'two places'],
      (p) => {
        p.segments[2].crew = [hand(0, null)];
        move(p, 1, -10);
      },
    ],
    ['a seat without the level', ['seat'], (p) => (p.segments[4].crew = [hand(2, 0)])],
    ['an empty seat', ['seat'], (p) => (p.segments[4].crew = [hand(0, null)])],
    ['a seat without its clearance', ['clearance'], (_, y) => (y.people[0].clearances = [])],
    ['a clearance that lapses too soon', ['clearance'], (_, y) => (y.people[0].clearances[0].until = 113)],
    ['too few hands', ['crew'], (_, y) => (y.tasks[1].crew = { min: 2, efficient: 2, max: 2 })],
    ['too many hands', ['crew'], (_, y) => (y.tasks[0].crew.max = 1)],
    ['a learner alone', ['second hand', 'seat'], (p) => (p.segments[4].crew = [hand(1, 0)])],
    ['somebody who has gone home', ['stay'], (_, y) => (y.people[1].stays[0].to = 59)],
    ['too many minutes in a turnout', ['cap'], (_, y) => (y.people[1].minutesATurnout = 59)],
    ['too many minutes in a week', ['cap'], (_, y) => (y.people[0].minutesAWeek = 74)],
    ['work left over', ['work'], (_, y) => (y.tasks[0].effort = { kind: 'work', personMinutes: 101 })],
    ['work beyond the end', ['work'], (_, y) => (y.tasks[0].effort = { kind: 'work', personMinutes: 99 })],
    ['set-up left out', ['work'], (_, y) => (y.tasks[0].setUpMinutes = 6)],
    ['a learner counted in full', ['work'], (_, y) => (y.tasks[0].learnerShare = 0.4)],
    ['one-go work in two', ['one go'], (_, y) => (y.tasks[0].oneGo = true)],
    ['work outside the turnout', ['link', 'turnout'], (_, y) => (y.turnouts[1].end = 134)],
    [
      'a tool used twice',
      ['opening', 'tool'],
      (p, y) => {
        y.tasks[1].tools = [{ tool: 0, count: 1 }];
        move(p, 1, -14);
      },
    ],
    ['a tool taken away', ['tool'], (_, y) => (y.tools[0].spans = [{ from: 110, to: 112, capacity: 0 }])],
    [
      'too much open',
      ['opening'],
      (p) => {
        move(p, 1, -1);
      },
    ],
    [
      'an element shut before it is opened',
      ['opening'],
      (_, y) => (
        (y.tasks[0].closes = []),
        (y.tasks[2].opens = [0]),
        (y.tasks[0].opens = []),
        (y.tasks[1].closes = [0])
      ),
    ],
    ['a start before the link allows', ['link'], (_, y) => (y.links[2].lag = 1)],
    ['an end before the link allows', ['link'], (_, y) => (y.links[1].lag = 11)],
    ['a start that is too early', ['not before'], (_, y) => (y.tasks[1].notBefore = 116)],
    ['work in the past', ['now'], (_, y) => (y.now = 1)],
    ['work past the horizon', ['horizon'], (_, y) => (y.horizon = 144)],
    [
      'a firm posting dropped',
      ['posting'],
      (_, y) => {
        y.posted[0].turnout = 1;
        y.posted[0].person = 1;
      },
    ],
    ['a wrong count of changed postings', ['posting'], (p) => (p.postingsChanged = 1)],
    ['a task left out', ['task missing'], (p) => p.segments.splice(4)],
    ['a ready minute that is not the last end', ['chain', 'ready'], (p) => (p.ready = 144)],
    ['a wrong slot', ['ready'], (p) => (p.slot = 0)],
    ['a ready minute below the bound', ['ready'], (p) => (p.bound.ready = 146)],
    ['a launch chain that stops short', ['chain'], (p) => p.launchChain.splice(1)],
    ['a float below none', ['chain'], (p) => (p.tasks[0].float = -1)],
    ['a proof that is none', ['ready'], (p) => (p.proved = true)],
    ['times that are not those of the segments', ['times'], (p) => (p.tasks[1].start = 116)],
    ['an index out of range', ['shape'], (p) => (p.segments[0].crew[0].person = 9)],
    [
      'a stop without a cause',
      ['stopped'],
      (_, y) => {
        y.turnouts[0].end = 70;
        for (const one of y.people) one.stays[0].to = 70;
      },
    ],
  ];

  it.each(breaks)('names %s', (_, rules, change) => {
    expect(after(change)).toEqual(rules.sort());
  });

  it('counts set-up once, however often the crew changes meanwhile', () => {
    const changed = (p: Plan, y: Problem) => {
      y.tasks[0].effort = { kind: 'work', personMinutes: 101 };
      p.segments.splice(
        1,
        1,
        ...[103, 115].map((end, k) => ({ ...p.segments[1], start: [100, 103][k], end })),
      );
    };
    expect(after(changed)).toEqual(['work']);
  });

  it('lets work stop when one of its hands has to leave', () => {
    const early = (_: Plan, y: Problem) => {
      y.turnouts[0].end = 70;
      y.people[0].stays[0].to = 70;
    };
    expect(after(early)).toEqual([]);
  });
});

/** Moves the segment of a task, and its times, within the turnout. */
function move(plan: Plan, which: number, by: number): void {
  for (const one of [...plan.segments.filter((segment) => segment.task === which), plan.tasks[which]]) {
    one.start += by;
    one.end += by;
  }
  plan.segments.sort((a, b) => a.start - b.start);
}
