import type { Problem, Seat, Task } from '@ribband/engine';
import { Dice } from './dice.js';
import { drawLinks, range } from './links.js';

/** A yard that a general solver can be given whole: see the README for what is in it and what is not. */
export interface SmallYardWish {
  tasks: number;
  people: number;
  weeks: number;
  seed: number;
}

const DAY = 24 * 60;
const WEEK = 7 * DAY;
const SKILLS = ['sawyer', 'framer', 'planker', 'nail puller'];
const SHARES = [0.2, 0.35, 0.5, 0.8];

/** Length of a turnout, and the grain of all lengths, in minutes. */
export const SHIFT = 300;
export const GRAIN = 30;

/** Work of set length in one go, seats by skill, people who come on some days, one mill, glue that wants a night. */
export function smallYard({ tasks, people, weeks, seed }: SmallYardWish): Problem {
  const dice = new Dice(seed);
  const turnouts = range(0, weeks).flatMap((week) =>
    [2, 5, 6].map((day) => {
      const start = week * WEEK + day * DAY + 9 * 60;
      return { id: `turnout-${week}-${day}`, start, end: start + SHIFT };
    }),
  );
  const n = tasks + 2;
  const links = drawLinks(n, 1.6, dice);
  const glue = drawGlue(n, links, dice);
  return {
    format: 'ribband-problem/1',
    now: 0,
    horizon: weeks * WEEK,
    skills: SKILLS.map((name) => ({ id: name, name })),
    clearances: [],
    turnouts,
    people: range(0, people).map((p) => {
      const days = [0, 1, 2].filter((day) => dice.chance(day === 1 ? 0.8 : 0.5));
      const away = dice.whole(0, weeks - 1);
      return {
        id: `person-${p}`,
        name: `person ${p}`,
        // Of the first ones each works alone at one trade and comes to everything, so that a plan exists.
        levels: SHARES.map((share, s) => (p % SKILLS.length === s || dice.chance(share) ? 2 : 0)),
        stays: turnouts.flatMap(({ start, end }, turnout) =>
          p < 2 * SKILLS.length || (days.includes(turnout % 3) && Math.floor(turnout / 3) !== away)
            ? [{ turnout, from: start, to: end, showUp: 1 }]
            : [],
        ),
        clearances: [],
        minutesAWeek: null,
        minutesATurnout: null,
      };
    }),
    tools: [{ id: 'mill', name: 'band mill', capacity: 1, spans: [] }],
    elements: [],
    openingLimits: [],
    tasks: range(0, n).map((i) => drawTask(i, i === 0 || i === n - 1, glue.has(i), dice)),
    links: links.map(([before, after]) => {
      return { before, after, relation: 'finish-to-start', lag: 0, lagKind: 'working' };
    }),
    posted: [],
    aim: { gate: weeks * WEEK, slots: [weeks * WEEK] },
  };
}

/** Glue comes after work and before work, so that half hours of turnouts are enough to tell when it is dry. */
function drawGlue(n: number, links: [number, number][], dice: Dice): Set<number> {
  const glue = new Set<number>();
  for (const i of range(1, n - 1)) {
    const before = links.flatMap(([a, b]) => (b === i ? [a] : []));
    const isLast = links.some(([a, b]) => a === i && b === n - 1);
    if (!isLast && before.every((a) => a > 0 && !glue.has(a)) && dice.chance(0.15)) glue.add(i);
  }
  return glue;
}

function drawTask(i: number, isMark: boolean, isGlue: boolean, dice: Dice): Task {
  const asked = dice.shuffled(range(0, SKILLS.length)).slice(0, dice.whole(1, 2));
  const seats: Seat[] =
    isMark || isGlue
      ? []
      : asked.map((skill) => ({
          skill,
          level: 2,
          count: skill > 1 && dice.chance(0.3) ? 2 : 1,
          clearances: [],
        }));
  const hands = seats.reduce((sum, { count }) => sum + count, 0);
  return {
    id: `task-${i}`,
    name: isMark ? `mark ${i}` : `task ${i}`,
    effort: isMark
      ? { kind: 'elapsed', minutes: 0 }
      : isGlue
        ? { kind: 'elapsed', minutes: 12 * 60 }
        : { kind: 'fixed', minutes: GRAIN * dice.whole(2, 8) },
    crew: { min: hands, efficient: hands, max: hands },
    seats,
    clearances: [],
    oneGo: true,
    setUpMinutes: 0,
    extraHandShare: 0,
    learnerShare: 0,
    tools: seats.some(({ skill }) => skill === 0) ? [{ tool: 0, count: 1 }] : [],
    opens: [],
    closes: [],
    notBefore: null,
    progress: { kind: 'waiting' },
  };
}
