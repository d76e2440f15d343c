import type { Problem } from '@ribband/engine';
import { Dice } from './dice.js';
import { range } from './links.js';
import { drawPeople } from './yard-people.js';
import { drawStations } from './yard-work.js';

/** A yard of any size, for measuring: see the README for what is in it. */
export interface YardWish {
  tasks: number;
  people: number;
  /** Weeks with turnouts on Wednesday, Saturday and Sunday, nine to two. */
  weeks: number;
  seed: number;
}

const DAY = 24 * 60;
const WEEK = 7 * DAY;

/** Trades, the rarest first: of all the people about so many in a hundred work alone in it. */
export const TRADES = [
  { name: 'sawyer', share: 0.06 },
  { name: 'caulker', share: 0.07 },
  { name: 'cutter of bolts', share: 0.1 },
  { name: 'framer', share: 0.14 },
  { name: 'planker', share: 0.25 },
  { name: 'nail puller', share: 0.4 },
  { name: 'painter', share: 0.5 },
] as const;

/** The size that a crew of volunteers has for so many tasks: 300 people for 5,000 tasks, eight at least. */
export function usualYard(tasks: number, seed: number): YardWish {
  return { tasks, people: Math.max(8, Math.round(tasks * 0.06)), weeks: 156, seed };
}

export function generatedYard({ tasks, people, weeks, seed }: YardWish): Problem {
  const dice = new Dice(seed);
  const turnouts = range(0, weeks).flatMap((week) =>
    [2, 5, 6].map((day) => {
      const start = week * WEEK + day * DAY + 9 * 60;
      return { id: `turnout-${week}-${day}`, start, end: start + 300 };
    }),
  );
  const horizon = weeks * WEEK;
  const work = drawStations(tasks, people, dice);
  return {
    format: 'ribband-problem/1',
    now: 0,
    horizon,
    skills: TRADES.map(({ name }) => ({ id: name, name })),
    clearances: [{ id: 'hot-work', name: 'hot-work card' }],
    turnouts,
    people: drawPeople(people, turnouts, dice),
    ...work,
    posted: [],
    aim: { gate: Math.floor(weeks / 2) * WEEK, slots: range(1, weeks).map((week) => week * WEEK) },
  };
}
