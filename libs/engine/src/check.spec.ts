import { checkProblem } from './check.js';
import type { Problem, Task } from './problem.js';

const task: Task = {
  id: 't',
  name: 'plank',
  effort: { kind: 'work', personMinutes: 100 },
  crew: { min: 1, efficient: 2, max: 2 },
  seats: [{ skill: 0, level: 2, count: 1, clearances: [0] }],
  clearances: [0],
  oneGo: true,
  setUpMinutes: 5,
  extraHandShare: 0.5,
  learnerShare: 0.5,
  tools: [{ tool: 0, count: 1 }],
  opens: [0],
  closes: [0],
  notBefore: null,
  progress: { kind: 'waiting' },
};

const stay = { turnout: 0, from: 0, to: 60, showUp: 0.9 };
const person = {
  id: 'p',
  name: 'p',
  clearances: [{ clearance: 0, until: null }],
  minutesAWeek: null,
  minutesATurnout: 50,
};

const sound: Problem = {
  format: 'ribband-problem/1',
  now: 0,
  horizon: 200,
  skills: [{ id: 's', name: 'sawyer' }],
  clearances: [{ id: 'c', name: 'of age' }],
  turnouts: [
    { id: 'a', start: 0, end: 60 },
    { id: 'b', start: 60, end: 120 },
  ],
  people: [
    { ...person, levels: [3], stays: [stay] },
    { ...person, levels: [0], stays: [stay] },
  ],
  tools: [{ id: 'b', name: 'bench', capacity: 1, spans: [{ from: 0, to: 10, capacity: 0 }] }],
  elements: [{ id: 'e', name: 'frame 1' }],
  openingLimits: [{ id: 'l', name: 'fore', elements: [0], atMost: 1 }],
  tasks: [task, { ...task, opens: [], closes: [] }],
  links: [{ before: 0, after: 1, relation: 'finish-to-start', lag: -5, lagKind: 'working' }],
  posted: [{ task: 0, turnout: 0, person: 0, firm: true }],
  aim: { gate: 150, slots: [100, 150] },
};

type Change = (problem: Problem) => void;

function faults(change: Change): string[] {
  const problem = structuredClone(sound);
  change(problem);
  return checkProblem(problem).map((fault) => `${fault.path} ${fault.says}`);
}

describe('a problem read before it is planned', () => {
  it('has no fault when it is sound', () => {
    expect(checkProblem(sound)).toEqual([]);
  });

  const wrong: [string, Change][] = [
    ['format must be one of ribband-problem/1; is x', (p) => ((p as { format: string }).format = 'x')],
    ['links must be a list', (p) => ((p as { links: unknown }).links = undefined)],
    ['horizon must not be before now (0), is -1', (p) => (p.horizon = -1)],
    ['now must be a whole minute, is 0.5', (p) => (p.now = 0.5)],
    [
      'turnouts[1].start must not be before the end of the turnout before it (60), is 59',
      (p) => (p.turnouts[1].start = 59),
    ],
    ['turnouts[1].end must be after its start (60), is 60', (p) => (p.turnouts[1].end = 60)],
    ['aim.gate must be one of aim.slots, is 149', (p) => (p.aim.gate = 149)],
    ['aim.slots[1] must be after the slot before it (150), is 150', (p) => (p.aim.slots[0] = 150)],
    ['people[0].levels must have one level a skill (1), has 0', (p) => (p.people[0].levels = [])],
    ['people[1].levels[0] must be a whole number from 0 to 4, is 5', (p) => (p.people[1].levels[0] = 5)],
    [
      "people[0].stays[0].to must lie between from (0) and the turnout's end (60), is 61",
      (p) => (p.people[0].stays[0].to = 61),
    ],
    ['people[0].stays[1].turnout must not be turnouts[0] a second time', (p) => p.people[0].stays.push(stay)],
    ['people[0].stays[0].showUp must be between 0 and 1, is 1.1', (p) => (p.people[0].stays[0].showUp = 1.1)],
    [
      'people[0].minutesATurnout must be a whole number from 0 up, is -1',
      (p) => (p.people[0].minutesATurnout = -1),
    ],
    [
      'people[0].clearances[0].clearance must be an index into clearances, of which there are 1; is 1',
      (p) => (p.people[0].clearances[0].clearance = 1),
    ],
    ['tools[0].spans[0].to must be after its from (0), is 0', (p) => (p.tools[0].spans[0].to = 0)],
    ['tools[0].capacity must be a whole number from 0 up, is -1', (p) => (p.tools[0].capacity = -1)],
    [
      'openingLimits[0].elements[1] must not name elements[0] twice',
      (p) => p.openingLimits[0].elements.push(0),
    ],
    [
      'tasks[1].opens[0] must not be elements[0], which tasks[0] opens already',
      (p) => (p.tasks[1].opens = [0]),
    ],
    [
      'tasks[0].effort.personMinutes must be 0 or more, is -1',
      (p) => (p.tasks[0].effort = { kind: 'work', personMinutes: -1 }),
    ],
    ['tasks[0].crew.min must not be above the most hands (2), is 3', (p) => (p.tasks[0].crew.min = 3)],
    ['tasks[0].crew.efficient must lie between 1 and 2, is 3', (p) => (p.tasks[0].crew.efficient = 3)],
    [
      'tasks[0].seats must not have more seats than hands are let in (2), have 3',
      (p) => (p.tasks[0].seats[0].count = 3),
    ],
    [
      'tasks[0].seats[0].count must be a whole number from 1 up, is -2',
      (p) => (p.tasks[0].seats[0].count = -2),
    ],
    [
      'tasks[0].seats[0].level must be a whole number from 1 to 4, is 0',
      (p) => (p.tasks[0].seats[0].level = 0),
    ],
    [
      'tasks[0].seats[0].skill must be an index into skills, of which there are 1; is 7',
      (p) => (p.tasks[0].seats[0].skill = 7),
    ],
    [
      'tasks[0].tools[0].tool must be an index into tools, of which there are 1; is 1',
      (p) => (p.tasks[0].tools[0].tool = 1),
    ],
    [
      'tasks[0].setUpMinutes must be a whole number from 0 up, is NaN',
      (p) => (p.tasks[0].setUpMinutes = NaN),
    ],
    [
      'tasks[0].progress.startedAt must not be after now (0), is 1',
      (p) => (p.tasks[0].progress = { kind: 'under way', startedAt: 1 }),
    ],
    [
      'tasks[0].progress.endedAt must lie between its start (-5) and now (0), is 3',
      (p) => (p.tasks[0].progress = { kind: 'done', startedAt: -5, endedAt: 3 }),
    ],
    ['links[0].after must be another task than before', (p) => (p.links[0].after = 0)],
    [
      'links[0].before must be an index into tasks, of which there are 2; is 2',
      (p) => (p.links[0].before = 2),
    ],
    ['links[0].lag must be a whole minute, is Infinity', (p) => (p.links[0].lag = Infinity)],
    [
      'posted[0].person must be an index into people, of which there are 2; is 2',
      (p) => (p.posted[0].person = 2),
    ],
    ['tasks[0].seats[0].count wants 1 people, 0 are fit for it', (p) => (p.people[0].levels[0] = 1)],
    ['tasks[0].tools[0].count wants 2, there are never more than 1', (p) => (p.tasks[0].tools[0].count = 2)],
    [
      'tasks[0].oneGo takes 61 minutes in one go, the longest turnout has 60',
      (p) => (p.tasks[0].effort = { kind: 'work', personMinutes: 121 }),
    ],
    ['posted[0] people[0] is not expected at turnouts[1]', (p) => (p.posted[0].turnout = 1)],
  ];

  it.each(wrong)('says: %s', (says, change) => {
    expect(faults(change)).toContain(says);
  });

  it('refuses an element that is shut for good and yet to be opened', () => {
    const shut = faults((p) => {
      p.tasks[0].closes = [];
      p.tasks[1].closes = [0];
      p.tasks[1].progress = { kind: 'done', startedAt: -5, endedAt: -1 };
    });
    expect(shut).toEqual(['tasks[1].closes[0] must not be elements[0], shut before tasks[0] opened it']);
  });

  it('finds everything in one reading', () => {
    expect(
      faults((p) => {
        p.tasks[0].setUpMinutes = -1;
        p.links[0].after = 9;
        p.now = NaN;
      }),
    ).toHaveLength(3);
  });

  it('tells what can not be computed from what can not come true', () => {
    const problem = structuredClone(sound);
    problem.people[0].levels[0] = 1;
    expect(new Set(checkProblem(problem).map((fault) => fault.kind))).toEqual(new Set(['impossible']));
  });
});
