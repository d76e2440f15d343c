import {
  boundless,
  forecast,
  latenessOf,
  plainTask,
  rateOf,
  reworkOf,
  showUpOf,
  solve,
  togetherOf,
  type Beliefs,
  type RateLearned,
} from '@ribband/engine';
import { smallYard } from './small-yard.js';
import { World } from './world.js';

export const MOMENTS = ['at the start', 'a third of the way', 'two thirds of the way'] as const;

/** One forecast of one yard, beside what came true. */
export interface Trial {
  seed: number;
  moment: number;
  /** Share of futures ready by the true minute, those at the very minute counted half. */
  rank: number;
  held: { p50: boolean; p80: boolean; p95: boolean };
  /** Days from the moment on: to the 50 and 80 % dates, and to when she was truly ready. */
  days: { p50: number; p80: number; p95: number; truly: number };
}

/** How much a task may differ from its kind: what the forecast takes for granted; the truth goes further. */
const OWN = 0.15;

/** Lives through one yard and forecasts it at three moments, from what its record holds at each. */
export function trialsOf(seed: number, futures: number): Trial[] {
  const yard = smallYard(seed);
  const world = new World(yard);
  const { problem } = yard;
  let learned = yard.books.map((book) => rateOf([], book));
  const first = solve(problem, { seed: 1, schedules: 60, other: boundless });
  if (first.kind === 'no plan') return [];
  // Moments are those of the first plan: nobody knows yet when she will truly be ready.
  const length = problem.turnouts.filter(({ start }) => start < first.plan.ready).length;
  const moments = [0, Math.round(length / 3), Math.round((2 * length) / 3)];
  const told: { moment: number; result: ReturnType<typeof forecast>; now: number }[] = [];
  while (world.ready === null && world.turnout < problem.turnouts.length) {
    moments.forEach((at, moment) => {
      if (at !== world.turnout) return;
      learned = yard.books.map((book, k) => rateOf(world.tallies[k], book));
      const result = told.length > moment ? null : forecastNow(world, learned, futures, seed);
      if (result !== null) told.push({ moment, result, now: world.now });
    });
    if (world.turnout % 3 === 0) learned = yard.books.map((book, k) => rateOf(world.tallies[k], book));
    world.live(learned.map(paceOf));
  }
  const { ready } = world;
  if (ready === null) return [];
  return told.map(({ moment, result, now }) => {
    const minute = (of: { minute: number | null }) => of.minute ?? Infinity;
    const { p50, p80, p95 } = result.ready;
    return {
      seed,
      moment,
      rank: rankOf(result.spread, ready),
      held: { p50: ready <= minute(p50), p80: ready <= minute(p80), p95: ready <= minute(p95) },
      days: {
        p50: (minute(p50) - now) / 1440,
        p80: (minute(p80) - now) / 1440,
        p95: (minute(p95) - now) / 1440,
        truly: (ready - now) / 1440,
      },
    };
  });
}

export function paceOf({ pace }: RateLearned): number {
  return pace.shape / pace.rate;
}

function forecastNow(world: World, learned: RateLearned[], futures: number, seed: number) {
  const problem = world.problemNow(learned.map(paceOf));
  const showUps = problem.people.map((_, p) =>
    showUpOf({ came: world.came[p], expected: world.expected[p] }),
  );
  const expected = {
    ...problem,
    people: problem.people.map((person, p) => ({
      ...person,
      stays: person.stays.map((stay) => ({ ...stay, showUp: showUps[p].mean })),
    })),
  };
  const outcome = solve(expected, { seed: 1, schedules: 60, other: boundless });
  if (outcome.kind === 'no plan') return null;
  const { late } = latenessOf([]);
  const rework = reworkOf(0, []);
  const beliefs: Beliefs = {
    showUp: showUps.map(({ chance }) => chance),
    together: togetherOf(world.met).together,
    rates: learned.map(({ pace, byTurnout }, k) => ({ id: `kind ${k}`, name: `kind ${k}`, pace, byTurnout })),
    tasks: problem.tasks.map((task, i) => {
      const kind = world.yard.kind[i];
      return {
        ...plainTask(),
        rate: kind < 0 ? null : kind,
        plannedPace: kind < 0 ? 1 : paceOf(learned[kind]),
        own: kind < 0 ? 0 : OWN,
        late: world.yard.stock[i] !== 0 && task.progress.kind === 'waiting' ? late : null,
        rework: kind < 0 ? null : { chance: rework.chance, share: rework.share },
      };
    }),
  };
  return forecast(expected, outcome.plan, beliefs, { seed, futures });
}

function rankOf(spread: (number | null)[], ready: number): number {
  let rank = 0;
  for (const minute of spread) rank += minute === null || minute > ready ? 0 : minute === ready ? 0.5 : 1;
  return rank / spread.length;
}
