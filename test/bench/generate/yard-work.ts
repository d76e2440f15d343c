import type { Effort, Link, OpeningLimit, Problem, Seat, Task } from '@ribband/engine';
import type { Dice } from './dice.js';
import { range } from './links.js';

type Work = Pick<Problem, 'tasks' | 'links' | 'tools' | 'elements' | 'openingLimits'>;

/** Trades by their place in `TRADES`. */
const [SAWYER, CAULKER, CUTTER, FRAMER, PLANKER, PULLER, PAINTER] = [0, 1, 2, 3, 4, 5, 6];
const MILL = 0;
const HOIST = 1;

/** One step at a station of the hull. */
interface Step {
  name: string;
  effort: (dice: Dice) => Effort;
  seats: [skill: number, level: number, count: number][];
  crew: [min: number, efficient: number, max: number];
  tools?: number[];
  oneGo?: boolean;
  hot?: boolean;
  opens?: boolean;
  closes?: boolean;
}

const work =
  (least: number, most: number) =>
  (dice: Dice): Effort => ({ kind: 'work', personMinutes: 15 * dice.whole(least / 15, most / 15) });
const elapsed =
  (least: number, most: number) =>
  (dice: Dice): Effort => ({ kind: 'elapsed', minutes: 60 * dice.whole(least, most) });

/** What is done at each station, one after the other: a plank comes off, a frame is renewed, the plank goes back. */
const STEPS: Step[] = [
  { name: 'pull nails', effort: work(240, 900), seats: [[PULLER, 1, 1]], crew: [1, 3, 4] },
  { name: 'take off', effort: work(120, 300), seats: [[PLANKER, 2, 1]], crew: [2, 3, 4], opens: true },
  {
    name: 'cut bolts',
    effort: work(60, 240),
    seats: [[CUTTER, 2, 1]],
    crew: [2, 2, 2],
    hot: true,
    oneGo: true,
  },
  { name: 'fire watch', effort: elapsed(1, 1), seats: [], crew: [0, 0, 0] },
  { name: 'mill stock', effort: work(120, 420), seats: [[SAWYER, 2, 1]], crew: [2, 2, 3], tools: [MILL] },
  { name: 'shape', effort: work(300, 900), seats: [[FRAMER, 2, 1]], crew: [1, 2, 3] },
  {
    name: 'hang',
    effort: (dice) => ({ kind: 'fixed', minutes: 30 * dice.whole(3, 6) }),
    seats: [[FRAMER, 2, 1]],
    crew: [3, 3, 4],
    tools: [HOIST],
  },
  { name: 'look over', effort: () => ({ kind: 'hold' }), seats: [[FRAMER, 3, 1]], crew: [1, 1, 1] },
  { name: 'glue sets', effort: elapsed(12, 48), seats: [], crew: [0, 0, 0] },
  { name: 'put back', effort: work(240, 720), seats: [[PLANKER, 2, 2]], crew: [2, 3, 4], closes: true },
  { name: 'caulk', effort: work(120, 480), seats: [[CAULKER, 2, 1]], crew: [1, 1, 2] },
  { name: 'paint', effort: work(120, 360), seats: [[PAINTER, 1, 1]], crew: [1, 2, 3] },
];

/** Stations with their steps, until there are so many tasks; the last one waits for all that nothing waits for. */
export function drawStations(count: number, people: number, dice: Dice): Work {
  const tasks: Task[] = [];
  const links: Link[] = [];
  const stations = Math.ceil((count - 1) / STEPS.length);
  for (let station = 0; station < stations; station++) {
    STEPS.slice(0, count - 1 - tasks.length).forEach((step, k) => {
      const i = tasks.length;
      if (k > 0) links.push(link(i - 1, i, dice));
      // Some wait for the station before last too, so that work goes along the hull.
      if (station >= 2 && dice.chance(0.3)) links.push(link(i - 2 * STEPS.length, i, dice));
      tasks.push(drawTask(step, i, station, dice));
    });
  }
  // A plank that comes off at the last station and has no step to put it back stays shut.
  for (const one of tasks)
    one.opens = one.opens.filter((e) => tasks.some((other) => other.closes.includes(e)));
  const waited = new Set(links.map(({ before }) => before));
  const ends = range(0, tasks.length).filter((i) => !waited.has(i));
  const last = tasks.length;
  tasks.push({
    ...drawTask(STEPS[3], last, stations, dice),
    name: 'ready',
    effort: { kind: 'elapsed', minutes: 0 },
  });
  for (const end of ends) links.push({ ...link(end, last, dice), lag: 0 });
  const crews = Math.max(1, Math.round(people / 30));
  return {
    tasks,
    links,
    tools: [
      { id: 'mill', name: 'band mill', capacity: crews, spans: [] },
      { id: 'hoist', name: 'hoist', capacity: crews, spans: [] },
    ],
    elements: range(0, stations).map((e) => ({ id: `plank-${e}`, name: `plank ${e}` })),
    openingLimits: limits(stations),
  };
}

/** Of any three neighbours no more than two are off at once. */
function limits(stations: number): OpeningLimit[] {
  return range(0, stations - 2).map((first) => {
    const elements = [first, first + 1, first + 2];
    return { id: `limit-${first}`, name: `planks ${first} to ${first + 2}`, elements, atMost: 2 };
  });
}

function link(before: number, after: number, dice: Dice): Link {
  const lag = dice.chance(0.1) ? 60 * dice.whole(1, 12) : 0;
  return { before, after, relation: 'finish-to-start', lag, lagKind: 'elapsed' };
}

function drawTask(step: Step, i: number, station: number, dice: Dice): Task {
  const [min, efficient, max] = step.crew;
  const seats = step.seats.map(([skill, level, number]): Seat => {
    return { skill, level, count: number, clearances: step.hot ? [0] : [] };
  });
  const effort = step.effort(dice);
  const splits = effort.kind === 'work' && !step.oneGo;
  return {
    id: `task-${i}`,
    name: `${step.name}, station ${station}`,
    effort,
    crew: { min, efficient, max },
    seats,
    clearances: [],
    oneGo: !splits,
    setUpMinutes: splits ? 15 : 0,
    extraHandShare: 0.5,
    learnerShare: 0.5,
    tools: (step.tools ?? []).map((tool) => ({ tool, count: 1 })),
    opens: step.opens ? [station] : [],
    closes: step.closes ? [station] : [],
    notBefore: null,
    progress: { kind: 'waiting' },
  };
}
