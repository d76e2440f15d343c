import type { Person, Plan, Problem, Task } from '@ribband/engine';
import type { Instance } from './instance.js';

/** The yard that a classical instance describes: one long turnout, tasks of set length in one go. */
export function toProblem(instance: Instance): Problem {
  const { durations, order } = instance;
  const horizon = Math.max(
    1,
    durations.reduce((sum, minutes) => sum + minutes, 0),
  );
  const skills = skillsOf(instance);
  return {
    format: 'ribband-problem/1',
    now: 0,
    horizon,
    skills: skills.map((name) => ({ id: name, name })),
    clearances: [],
    turnouts: [{ id: 'turnout', start: 0, end: horizon }],
    people: peopleOf(instance, horizon),
    tools:
      instance.format === 'sm'
        ? instance.capacity.map((capacity, k) => ({
            id: `r${k + 1}`,
            name: `resource ${k + 1}`,
            capacity,
            spans: [],
          }))
        : [],
    elements: [],
    openingLimits: [],
    tasks: durations.map((minutes, i) => taskOf(instance, i, minutes)),
    links: order.map(([before, after]) => ({
      before,
      after,
      relation: 'finish-to-start',
      lag: 0,
      lagKind: 'working',
    })),
    posted: [],
    aim: { gate: horizon, slots: [horizon] },
  };
}

function skillsOf(instance: Instance): string[] {
  if (instance.format === 'def') return instance.skills;
  return instance.format === 'dzn' ? (instance.needs[0] ?? []).map((_, s) => `skill ${s + 1}`) : [];
}

/** Levels begin at 2, "works alone", so that nobody counts as a learner. */
function peopleOf(instance: Instance, horizon: number): Person[] {
  const levels =
    instance.format === 'sm'
      ? []
      : instance.format === 'dzn'
        ? instance.can.map((row) => row.map((can) => (can ? 2 : 0)))
        : instance.levels.map((row) => row.map((level) => (level < 0 ? 0 : level + 2)));
  return levels.map((row, p) => ({
    id: `p${p + 1}`,
    name: `person ${p + 1}`,
    levels: row,
    stays: [{ turnout: 0, from: 0, to: horizon, showUp: 1 }],
    clearances: [],
    minutesAWeek: null,
    minutesATurnout: null,
  }));
}

function taskOf(instance: Instance, i: number, minutes: number): Task {
  const seats =
    instance.format === 'dzn'
      ? instance.needs[i].flatMap((count, skill) =>
          count > 0 ? [{ skill, level: 2, count, clearances: [] }] : [],
        )
      : instance.format === 'def'
        ? [{ skill: instance.task[i].skill, level: instance.task[i].level + 2, count: 1, clearances: [] }]
        : [];
  const hands = seats.reduce((sum, seat) => sum + seat.count, 0);
  return {
    id: `t${i + 1}`,
    name: `task ${i + 1}`,
    effort: { kind: 'fixed', minutes },
    crew: { min: hands, efficient: hands, max: hands },
    seats,
    clearances: [],
    oneGo: true,
    setUpMinutes: 0,
    extraHandShare: 0,
    learnerShare: 0,
    tools:
      instance.format === 'sm'
        ? instance.takes[i].flatMap((count, tool) => (count > 0 ? [{ tool, count }] : []))
        : [],
    opens: [],
    closes: [],
    notBefore: null,
    progress: { kind: 'waiting' },
  };
}

/** Starts in the order of the file, and who does what: see `Answer` in `solve.ts`. */
export function scheduleOf(instance: Instance, problem: Problem, plan: Plan): Schedule {
  const starts = plan.tasks.map((task) => task.start);
  if (instance.format === 'sm') return { starts };
  const crews = instance.durations.map(
    (_, i) => plan.segments.find((segment) => segment.task === i)?.crew ?? [],
  );
  if (instance.format === 'def')
    return { starts, assign: crews.map((crew) => instance.resourceIds[crew[0]?.person]) };
  const pairs = crews.map((crew, i) =>
    crew.flatMap(({ person, seat }) =>
      seat === null ? [] : [[person + 1, problem.tasks[i].seats[seat].skill + 1]],
    ),
  );
  return { starts, assign: pairs };
}

export interface Schedule {
  starts: number[];
  /** `.dzn`: pairs [person, skill] a task, from 1; `.def`: the ResourceID a task; `.sm`: absent. */
  assign?: number[][][] | number[];
}
