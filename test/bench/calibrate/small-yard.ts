import type { Link, Person, Problem, RateRange, Task } from '@ribband/engine';
import { Dice } from './dice.js';

/** A small yard as its people know it, and the truth that they don't know. */
export interface SmallYard {
  /** Efforts as the book has them. */
  problem: Problem;
  /** Kinds of work: the book's range of pieces a person-hour. */
  books: RateRange[];
  /** By task its kind, or -1; pieces to do. */
  kind: Int32Array;
  pieces: Float64Array;
  /** By task whether it is stock on its way. */
  stock: Uint8Array;
  truth: Truth;
}

export interface Truth {
  /** Pieces a person-hour by kind, and the relative spread from turnout to turnout. */
  pace: number[];
  byTurnout: number[];
  /** By task: how much harder it is than its kind. */
  hard: Float64Array;
  /** By person. */
  showUp: number[];
  /** Share of a turnout's luck that all have in common. */
  together: number;
  lateChance: number;
  lateDays: number;
  reworkChance: number;
  reworkShare: number;
  dice: Dice;
}

const DAY = 24 * 60;
const SKILLS = ['framing', 'sawing', 'say-so'];
/** Long enough for the slowest of truths. */
const TURNOUTS = 150;

/** Truth comes from a wider world than the forecast expects: paces outside the book, people of whom half stay away. */
export function smallYard(seed: number): SmallYard {
  const dice = new Dice(seed);
  const kinds = dice.whole(2, 4);
  const books = Array.from({ length: kinds }, () => {
    const middle = dice.between(3, 20);
    const width = dice.between(0.25, 0.6);
    return { low: middle * (1 - width), high: middle * (1 + width) };
  });
  const turnouts = Array.from({ length: TURNOUTS }, (_, w) => {
    // Saturdays and Wednesdays, five hours.
    const start = (w % 2 === 0 ? Math.floor(w / 2) * 7 : Math.floor(w / 2) * 7 + 4) * DAY + 9 * 60;
    return { id: `turnout ${w}`, start, end: start + 300 };
  });
  const people = peopleOf(dice, turnouts.length);
  const count = dice.whole(10, 16);
  const kind = new Int32Array(count).fill(-1);
  const pieces = new Float64Array(count);
  const stock = new Uint8Array(count);
  const tasks = Array.from({ length: count }, (_, i) => task(dice, i, { books, kind, pieces, stock }));
  const problem: Problem = {
    format: 'ribband-problem/1',
    now: 0,
    horizon: turnouts[turnouts.length - 1].end,
    skills: SKILLS.map((name) => ({ id: name, name })),
    clearances: [],
    turnouts,
    people: people.map(({ person }) => person),
    tools: [{ id: 'bench', name: 'bench', capacity: 1, spans: [] }],
    elements: [],
    openingLimits: [],
    tasks,
    links: linksOf(dice, count, stock),
    posted: [],
    aim: { gate: 60 * DAY, slots: [60 * DAY, 90 * DAY] },
  };
  openings(dice, problem);
  return {
    problem,
    books,
    kind,
    pieces,
    stock,
    truth: {
      pace: books.map(({ low, high }) => ((low + high) / 2) * dice.factor(dice.between(0.2, 0.45))),
      byTurnout: books.map(() => dice.between(0.05, 0.4)),
      hard: Float64Array.from(tasks, () => dice.factor(dice.between(0, 0.25))),
      showUp: people.map(({ showUp }) => showUp),
      together: dice.between(0, 0.35),
      lateChance: dice.between(0, 0.5),
      lateDays: dice.between(4, 24),
      reworkChance: dice.between(0, 0.1),
      reworkShare: dice.between(0.05, 0.35),
      dice,
    },
  };
}

function peopleOf(dice: Dice, turnouts: number): { person: Person; showUp: number }[] {
  const count = dice.whole(5, 8);
  return Array.from({ length: count }, (_, p) => {
    const days = dice.one([[0, 1], [0, 1], [0], [1]] as const);
    const lead = p === 0;
    return {
      // A mean of four in five, from two in five up: wider than what is expected of people before they are known.
      showUp: 0.999 - (lead ? 0.2 : 0.6) * dice.share() ** 2,
      person: {
        id: `person ${p}`,
        name: `person ${p}`,
        levels: [
          lead || p < 3 || dice.chance(0.4) ? 2 : 0,
          p === 1 || dice.chance(0.25) ? 2 : 0,
          lead || p === 2 ? 4 : 0,
        ],
        stays: Array.from({ length: turnouts }, (_, w) => w)
          .filter((w) => p < 3 || days.some((day) => day === w % 2))
          .map((turnout) => {
            const start = startOf(turnout);
            return { turnout, from: start, to: start + 300, showUp: 0.8 };
          }),
        clearances: [],
        minutesAWeek: null,
        minutesATurnout: null,
      },
    };
  });
}

function startOf(w: number): number {
  return (w % 2 === 0 ? Math.floor(w / 2) * 7 : Math.floor(w / 2) * 7 + 4) * DAY + 9 * 60;
}

function task(
  dice: Dice,
  i: number,
  known: { books: RateRange[]; kind: Int32Array; pieces: Float64Array; stock: Uint8Array },
): Task {
  const what = dice.share();
  const plain: Task = {
    id: `task ${i}`,
    name: `task ${i}`,
    effort: { kind: 'hold' },
    crew: { min: 0, efficient: 0, max: 0 },
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
  };
  if (what < 0.07) {
    known.stock[i] = 1;
    return { ...plain, effort: { kind: 'elapsed', minutes: dice.whole(7, 35) * DAY } };
  }
  if (what < 0.14) return { ...plain, effort: { kind: 'elapsed', minutes: dice.whole(12, 72) * 60 } };
  if (what < 0.2) {
    const seats = [{ skill: 2, level: 4, count: 1, clearances: [] }];
    return { ...plain, crew: { min: 1, efficient: 1, max: 1 }, seats };
  }
  const kind = dice.whole(0, known.books.length - 1);
  const { low, high } = known.books[kind];
  const hours = dice.between(3, 30);
  known.kind[i] = kind;
  known.pieces[i] = Math.max(1, Math.round((hours * (low + high)) / 2));
  const min = dice.one([1, 1, 2]);
  const efficient = min + dice.whole(0, 1);
  const seat = dice.share();
  return {
    ...plain,
    effort: {
      kind: 'work',
      personMinutes: Math.max(1, Math.round((known.pieces[i] / ((low + high) / 2)) * 60)),
    },
    crew: { min, efficient, max: efficient + dice.whole(0, 1) },
    seats: seat < 0.3 ? [] : [{ skill: seat < 0.7 ? 0 : 1, level: 2, count: 1, clearances: [] }],
    setUpMinutes: dice.one([0, 0, 10, 20]),
    tools: dice.chance(0.2) ? [{ tool: 0, count: 1 }] : [],
  };
}

function linksOf(dice: Dice, count: number, stock: Uint8Array): Link[] {
  const links: Link[] = [];
  for (let after = 1; after < count; after++) {
    // Stock is ordered at the start.
    if (stock[after] !== 0) continue;
    for (let before = Math.max(0, after - 5); before < after; before++) {
      if (!dice.chance(0.28)) continue;
      const apart = dice.chance(0.1);
      links.push({
        before,
        after,
        relation: dice.chance(0.06) ? 'start-to-start' : 'finish-to-start',
        lag: apart ? dice.whole(1, 3) * DAY : 0,
        lagKind: 'elapsed',
      });
    }
  }
  return links;
}

/** Three elements of which two may be open, each opened by one task and closed by a later one of work. */
function openings(dice: Dice, problem: Problem): void {
  if (!dice.chance(0.4)) return;
  const work = problem.tasks.flatMap(({ effort }, i) => (effort.kind === 'work' ? [i] : []));
  for (let e = 0; e < 3; e++) {
    const at = dice.whole(0, work.length - 3);
    const opener = work[at];
    const closer = work[at + dice.whole(1, 2)];
    problem.elements.push({ id: `element ${e}`, name: `element ${e}` });
    problem.tasks[opener].opens.push(e);
    problem.tasks[closer].closes.push(e);
    problem.links.push({
      before: opener,
      after: closer,
      relation: 'finish-to-start',
      lag: 0,
      lagKind: 'elapsed',
    });
  }
  problem.openingLimits.push({ id: 'limit', name: 'limit', elements: [0, 1, 2], atMost: 2 });
}
