import { link, person, problem, task, turnout } from '../../../test/engine/small-problem.js';
import { verifyPlan } from '../../../test/engine/verify-plan.js';
import type { Plan } from './plan.js';
import type { Problem } from './problem.js';
import { solve } from './solve.js';

/** Three mornings of 100 minutes, a day apart. */
const mornings = [turnout(0, 100), turnout(1000, 1100), turnout(2000, 2100)];
const skills = [
  { id: 'sawyer', name: 'sawyer' },
  { id: 'planker', name: 'planker' },
];
const oneHand = { crew: { min: 1, efficient: 1, max: 1 } };
const seat = (skill: number, level = 2) => [{ skill, level, count: 1, clearances: [] }];

function plan(parts: Partial<Problem>): Plan {
  const yard = problem({ turnouts: mornings, skills, ...parts });
  const outcome = solve(yard, { seed: 1, schedules: 200 });
  if (outcome.kind === 'no plan') throw new Error(JSON.stringify(outcome.wishes));
  expect(verifyPlan(yard, outcome.plan)).toEqual([]);
  return outcome.plan;
}

function heldBy(parts: Partial<Problem>, i: number) {
  return plan(parts).tasks[i].heldBy;
}

describe('Why a task stands where it stands', () => {
  it('says nothing of a task that starts at once, and names the link of one that follows', () => {
    const { tasks } = plan({ tasks: [task('strip', 30), task('draw', 20)], links: [link(0, 1)] });
    expect(tasks.map((one) => one.heldBy)).toEqual([{ kind: 'nothing' }, { kind: 'link', link: 0, task: 0 }]);
  });

  it('names the calendar where the next turnout is yet to come', () => {
    expect(heldBy({ now: 500, tasks: [task('strip', 30)] }, 0)).toEqual({ kind: 'calendar' });
  });

  it('names the calendar where a piece of work no longer fits into the morning', () => {
    const parts = { tasks: [task('strip', 60), task('steam', 60)], links: [link(0, 1)] };
    expect(heldBy(parts, 1)).toEqual({ kind: 'calendar' });
  });

  it('names the date that a task must wait for', () => {
    expect(heldBy({ tasks: [task('stock', 10, { notBefore: 40 })] }, 0)).toEqual({ kind: 'not before' });
  });

  it('names the one sawyer, and the task that keeps them', () => {
    const people = [person('Anselm', [3, 0], mornings), person('Petra', [0, 0], mornings)];
    const tasks = [
      task('saw 12', 50, { ...oneHand, seats: seat(0) }),
      task('saw 13', 50, { ...oneHand, seats: seat(0) }),
    ];
    const { tasks: times } = plan({ people, tasks });
    const second = times[0].start === 0 ? 1 : 0;
    expect(times[second].heldBy).toEqual({ kind: 'person', person: 0, task: 1 - second });
  });

  it('names the skill where nobody who has it comes before', () => {
    const people = [person('Anselm', [3, 0], mornings), person('Bram', [0, 3], mornings)];
    people[1].stays = people[1].stays.slice(1);
    expect(heldBy({ people, tasks: [task('hang', 50, { ...oneHand, seats: seat(1) })] }, 0)).toEqual({
      kind: 'skill',
      skill: 1,
      task: null,
    });
  });

  it('names the crew where too few hands are there', () => {
    const people = [person('Anselm', [3, 0], mornings), person('Bram', [0, 3], mornings)];
    people[1].stays = people[1].stays.slice(2);
    const lift = task('lift', 50, { crew: { min: 2, efficient: 2, max: 2 } });
    const { tasks } = plan({ people, tasks: [lift] });
    expect(tasks[0]).toMatchObject({ start: 2000, heldBy: { kind: 'crew', task: null } });
  });

  it('names the tool and who has it', () => {
    const tools = [{ id: 'saw', name: 'ship saw', capacity: 1, spans: [] }];
    const uses = { tools: [{ tool: 0, count: 1 }] };
    const { tasks } = plan({ tools, tasks: [task('saw 12', 50, uses), task('saw 13', 40, uses)] });
    const second = tasks[0].start === 0 ? 1 : 0;
    expect(tasks[second].heldBy).toEqual({ kind: 'tool', tool: 0, task: 1 - second });
  });

  it('names the opening limit and the task that shuts the neighbour', () => {
    const { tasks } = plan({
      elements: [
        { id: 'f12', name: 'frame 12' },
        { id: 'f13', name: 'frame 13' },
      ],
      openingLimits: [{ id: 'n', name: 'neighbours', elements: [0, 1], atMost: 1 }],
      tasks: [
        task('draw 12', 20, { opens: [0] }),
        task('set 12', 20, { closes: [0] }),
        task('draw 13', 20, { opens: [1] }),
        task('set 13', 20, { closes: [1] }),
      ],
      links: [link(0, 1), link(2, 3)],
    });
    const [first, second] = tasks[0].start < tasks[2].start ? [0, 2] : [2, 0];
    expect(tasks[second].heldBy).toEqual({ kind: 'opening', limit: 0, task: first + 1 });
  });

  it('says that a firm posting holds a task', () => {
    const people = [person('Anselm', [3, 0], mornings)];
    const posted = [{ task: 0, turnout: 1, person: 0, firm: true }];
    expect(heldBy({ people, posted, tasks: [task('saw', 50, oneHand)] }, 0)).toEqual({ kind: 'posted' });
  });
});

describe('The launch chain', () => {
  it('runs from the first cause to the last task through links and shared people', () => {
    const people = [person('Anselm', [3, 0], mornings)];
    const { launchChain } = plan({
      people,
      tasks: [
        task('saw 12', 30, { ...oneHand, seats: seat(0) }),
        task('saw 13', 25, { ...oneHand, seats: seat(0) }),
        task('set 13', 40),
        task('paint', 40),
      ],
      links: [link(0, 1), link(1, 2), link(0, 3, { relation: 'start-to-start' })],
    });
    expect(launchChain).toEqual([
      { task: 0, heldBy: { kind: 'nothing' } },
      { task: 1, heldBy: { kind: 'link', link: 0, task: 0 } },
      { task: 2, heldBy: { kind: 'link', link: 1, task: 1 } },
    ]);
  });

  it('runs through a person whom two tasks share where no link ties them', () => {
    const people = [person('Anselm', [3, 0], mornings)];
    const sawing = { ...oneHand, seats: seat(0) };
    const { launchChain, ready } = plan({
      people,
      tasks: [task('saw 12', 30, sawing), task('saw 13', 25, sawing), task('set 13', 40)],
      links: [link(1, 2)],
    });
    expect(ready).toBe(65);
    expect(launchChain.map((knot) => knot.task)).toEqual([1, 2]);
    const late = plan({ people, tasks: [task('saw 12', 30, sawing), task('saw 13', 65, sawing)], links: [] });
    expect(late.launchChain).toHaveLength(2);
    expect(late.launchChain[1].heldBy).toEqual({ kind: 'person', person: 0, task: late.launchChain[0].task });
  });

  it('goes on behind a wait for the calendar with what the task follows', () => {
    const { launchChain } = plan({ tasks: [task('strip', 60), task('steam', 60)], links: [link(0, 1)] });
    expect(launchChain).toEqual([
      { task: 0, heldBy: { kind: 'nothing' } },
      { task: 1, heldBy: { kind: 'calendar' } },
    ]);
  });
});

describe('Float on the real plan', () => {
  it('is nothing on the chain and the slack of the rest, in working minutes', () => {
    const { tasks } = plan({
      tasks: [task('strip', 60), task('draw', 40), task('clean', 30), task('set', 20)],
      links: [link(0, 1), link(1, 3), link(2, 3)],
    });
    expect(tasks.map((one) => one.float)).toEqual([0, 0, 70, 0]);
  });

  it('ends where the next task of the same person begins, whatever the links say', () => {
    const people = [person('Anselm', [3, 0], mornings)];
    const { tasks } = plan({
      people,
      tasks: [task('saw', 60, oneHand), task('sharpen', 40, oneHand)],
      links: [link(0, 1)],
    });
    expect(tasks.map((one) => one.float)).toEqual([0, 0]);
  });

  it('lets work wait while something dries for longer', () => {
    const { tasks } = plan({
      tasks: [task('glue', 500, { effort: { kind: 'elapsed', minutes: 1050 } }), task('sand', 20)],
      links: [],
    });
    expect(tasks[0].float).toBe(0);
    expect(tasks[1].float).toBe(130);
  });
});

describe('What is posted', () => {
  const people = [person('Anselm', [3, 0], mornings), person('Bram', [3, 0], mornings)];
  const tasks = [
    task('saw 12', 50, { ...oneHand, seats: seat(0) }),
    task('saw 13', 50, { ...oneHand, seats: seat(0) }),
  ];

  it('stays when it is firm, even where that costs days', () => {
    const { ready, postingsChanged } = plan({
      people,
      tasks,
      posted: [{ task: 1, turnout: 2, person: 1, firm: true }],
    });
    expect(ready).toBe(2050);
    expect(postingsChanged).toBe(0);
  });

  it('is kept when it costs nothing', () => {
    const last = task('launch', 50, { notBefore: 2000 });
    const posted = [
      { task: 0, turnout: 1, person: 1, firm: false },
      { task: 1, turnout: 1, person: 0, firm: false },
    ];
    const { ready, postingsChanged } = plan({ people, tasks: [...tasks, last], links: [], posted });
    expect(ready).toBe(2050);
    expect(postingsChanged).toBe(0);
  });

  it('is changed, and counted, where it would cost days', () => {
    const { ready, postingsChanged } = plan({
      people,
      tasks,
      posted: [{ task: 1, turnout: 2, person: 1, firm: false }],
    });
    expect(ready).toBe(50);
    expect(postingsChanged).toBe(1);
  });

  it('keeps the crews of the plan in force', () => {
    const yard = problem({ turnouts: mornings, skills, people, tasks: tasks.slice(0, 1) });
    const first = solve(yard, { seed: 1, schedules: 20 });
    if (first.kind === 'no plan') throw new Error('no plan');
    const warm = structuredClone(first.plan);
    const other = 1 - warm.segments[0].crew[0].person;
    warm.segments[0].crew[0].person = other;
    const next = solve(yard, { seed: 1, schedules: 20, warm });
    expect(next.kind === 'plan' && next.plan.segments[0].crew).toEqual([{ person: other, seat: 0 }]);
  });
});

describe('Where there is no plan', () => {
  const wishes = (parts: Partial<Problem>) => {
    const outcome = solve(problem({ turnouts: mornings, skills, ...parts }), { seed: 1, schedules: 50 });
    return outcome.kind === 'no plan' ? outcome.wishes : [];
  };
  const people = [person('Anselm', [1, 0], mornings), person('Bram', [0, 3], mornings)];

  it('names a circle of links', () => {
    expect(wishes({ tasks: [task('a', 10), task('b', 10)], links: [link(0, 1), link(1, 0)] })).toMatchObject([
      { kind: 'circle' },
    ]);
  });

  it('names a seat that nobody can fill', () => {
    expect(wishes({ people, tasks: [task('saw', 10, { ...oneHand, seats: seat(0) })] })).toEqual([
      { kind: 'seat', task: 0, seat: 0, have: 0, need: 1 },
    ]);
  });

  it('names a crew that never comes together', () => {
    const lift = task('lift', 10, { crew: { min: 3, efficient: 3, max: 3 } });
    expect(wishes({ people, tasks: [lift] })).toEqual([{ kind: 'crew', task: 0, have: 2, need: 3 }]);
  });

  it('names one-go work longer than the longest turnout', () => {
    expect(wishes({ tasks: [task('steam', 150)] })).toEqual([
      { kind: 'one go', task: 0, longest: 100, need: 150 },
    ]);
  });

  it('names a tool of which there are never enough', () => {
    const tools = [{ id: 'jack', name: 'jack', capacity: 2, spans: [] }];
    expect(wishes({ tools, tasks: [task('lift', 10, { tools: [{ tool: 0, count: 3 }] })] })).toEqual([
      { kind: 'tool', task: 0, tool: 0 },
    ]);
  });

  it('names the limit where two openings need each other', () => {
    const found = wishes({
      elements: [
        { id: 'f12', name: 'frame 12' },
        { id: 'f13', name: 'frame 13' },
      ],
      openingLimits: [{ id: 'n', name: 'neighbours', elements: [0, 1], atMost: 1 }],
      tasks: [
        task('draw 12', 10, { opens: [0] }),
        task('draw 13', 10, { opens: [1] }),
        task('set both', 10, { closes: [0, 1] }),
      ],
      links: [link(0, 2), link(1, 2)],
    });
    expect(found).toMatchObject([{ kind: 'opening', limit: 0 }]);
  });

  it('names a posting of somebody who does not come', () => {
    const away = [person('Anselm', [3, 0], mornings), person('Bram', [0, 3], [])];
    const posted = [{ task: 0, turnout: 0, person: 1, firm: true }];
    expect(wishes({ people: away, posted, tasks: [task('saw', 10, oneHand)] })).toEqual([
      { kind: 'posting', posting: 0 },
    ]);
  });

  it('names the task that the horizon cuts off', () => {
    expect(
      wishes({
        tasks: [task('a', 90), task('b', 90), task('c', 90), task('d', 90)],
        links: [link(0, 1), link(1, 2), link(2, 3)],
      }),
    ).toEqual([{ kind: 'horizon', task: 3 }]);
  });
});

describe('Openings', () => {
  it('are ordered so that what is half open can always be shut', () => {
    // Frame A can only be shut once B has been open, and C once D: opening A and C first would leave no way on.
    const names = ['A', 'B', 'C', 'D'];
    const { ready } = plan({
      elements: names.map((name) => ({ id: name, name })),
      openingLimits: [{ id: 'two', name: 'two at most', elements: [0, 1, 2, 3], atMost: 2 }],
      tasks: [
        task('draw A', 10, { opens: [0] }),
        task('draw C', 10, { opens: [2] }),
        task('draw B', 10, { opens: [1] }),
        task('set B', 10, { closes: [1] }),
        task('draw D', 10, { opens: [3] }),
        task('set D', 10, { closes: [3] }),
        task('set A', 10, { closes: [0] }),
        task('set C', 10, { closes: [2] }),
      ],
      links: [link(2, 3), link(3, 6), link(0, 6), link(4, 5), link(5, 7), link(1, 7)],
    });
    expect(ready).toBe(40);
  });
});
