import type { Link, Minute, Person, Problem, Relation, Task, Turnout } from '@ribband/engine';

/** Short ways to write a problem down in a test: everything left out is the simplest thing that it can be. */
export function problem(parts: Partial<Problem>): Problem {
  const turnouts = parts.turnouts ?? [turnout(0, 1000)];
  const horizon = parts.horizon ?? Math.max(0, ...turnouts.map((one) => one.end));
  return {
    format: 'ribband-problem/1',
    now: 0,
    skills: [],
    clearances: [],
    people: [],
    tools: [],
    elements: [],
    openingLimits: [],
    tasks: [],
    links: [],
    posted: [],
    aim: { gate: horizon, slots: [horizon] },
    ...parts,
    turnouts,
    horizon,
  };
}

export function turnout(start: Minute, end: Minute): Turnout {
  return { id: `turnout-${start}`, start, end };
}

/** A task of a set length that needs nobody and nothing, done in one go. */
export function task(name: string, minutes: number, more: Partial<Task> = {}): Task {
  return {
    id: name,
    name,
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

/** Person-minutes for one to `most` hands, in as many pieces as it takes. */
export function work(name: string, personMinutes: number, most: number, more: Partial<Task> = {}): Task {
  return task(name, 0, {
    effort: { kind: 'work', personMinutes },
    crew: { min: 1, efficient: most, max: most },
    oneGo: false,
    ...more,
  });
}

/** Somebody who is there for the whole of every turnout given. */
export function person(
  name: string,
  levels: number[],
  turnouts: Turnout[],
  more: Partial<Person> = {},
): Person {
  return {
    id: name,
    name,
    levels,
    stays: turnouts.map((one, w) => ({ turnout: w, from: one.start, to: one.end, showUp: 1 })),
    clearances: [],
    minutesAWeek: null,
    minutesATurnout: null,
    ...more,
  };
}

export function link(before: number, after: number, more: Partial<Link> = {}): Link {
  const relation: Relation = 'finish-to-start';
  return { before, after, relation, lag: 0, lagKind: 'working', ...more };
}
