import {
  plainTask,
  type Beliefs,
  type Person,
  type Problem,
  type Task,
  type ThreePoints,
} from '@ribband/engine';

/** A yard of one turnout a day for so many days, with nothing in it yet. */
export function emptyYard(days: number, tasks: Task[] = [], people: Person[] = []): Problem {
  const turnouts = Array.from({ length: days }, (_, w) => ({
    id: `turnout ${w}`,
    start: w * 1440 + 540,
    end: w * 1440 + 840,
  }));
  return {
    format: 'ribband-problem/1',
    now: 0,
    horizon: turnouts[days - 1].end,
    skills: [{ id: 'sawing', name: 'sawing' }],
    clearances: [],
    turnouts,
    people,
    tools: [],
    elements: [],
    openingLimits: [],
    tasks,
    links: [],
    posted: [],
    aim: { gate: 20 * 1440, slots: [20 * 1440, 40 * 1440] },
  };
}

export function hand(problem: Problem, id: string, showUp: number, level = 0, turnouts?: number[]): Person {
  return {
    id,
    name: id,
    levels: [level],
    stays: problem.turnouts
      .map(({ start, end }, turnout) => ({ turnout, from: start, to: end, showUp }))
      .filter(({ turnout }) => turnouts === undefined || turnouts.includes(turnout)),
    clearances: [],
    minutesAWeek: null,
    minutesATurnout: null,
  };
}

export function job(id: string, more: Partial<Task> = {}): Task {
  return {
    id,
    name: id,
    effort: { kind: 'work', personMinutes: 300 },
    crew: { min: 1, efficient: 1, max: 1 },
    seats: [],
    clearances: [],
    oneGo: false,
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

/** One unit of the textbooks' time, in minutes: long enough that whole minutes do not matter. */
export const UNIT = 1000;

/** A textbook's network of activities with three points each, as tasks that only need time. */
export function textbook(rows: [name: string, before: string, points: [number, number, number]][]): {
  problem: Problem;
  beliefs: Beliefs;
} {
  const names = rows.map(([name]) => name);
  const problem = emptyYard(2);
  problem.horizon = 1000 * UNIT;
  problem.tasks = rows.map(([name, , [low, likely, high]]) =>
    job(name, {
      effort: { kind: 'elapsed', minutes: Math.round(((low + 4 * likely + high) / 6) * UNIT) },
      crew: { min: 0, efficient: 0, max: 0 },
    }),
  );
  problem.links = rows.flatMap(([, before], after) =>
    [...before].map((name) => ({
      before: names.indexOf(name),
      after,
      relation: 'finish-to-start' as const,
      lag: 0,
      lagKind: 'elapsed' as const,
    })),
  );
  const beliefs: Beliefs = {
    showUp: [],
    together: 0,
    rates: [],
    tasks: rows.map(([, , [low, likely, high]]) => {
      const points: ThreePoints = { low: low * UNIT, likely: likely * UNIT, high: high * UNIT };
      return { ...plainTask(), points };
    }),
  };
  return { problem, beliefs };
}
