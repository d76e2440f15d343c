import type { Measured } from './measured.js';

/** A row of the engine's table: what others reach, what is the goal, and what was measured. */
export interface Row {
  what: string;
  /** Best published, or what bounds it. */
  published: string;
  goal: string;
  /** The measured value in the order of the goal; null where it was not measured. */
  measured: (all: Measured) => string | null;
  on: (all: Measured) => string;
}

const percent = (share: number | null | undefined, digits = 2) =>
  share === null || share === undefined ? '-' : (100 * share).toFixed(digits);

/** Sets: Kolisch and Sprecher 1996 (J30, J60, J120); Young, Feydy and Schutt 2017; Myszkowski et al. 2014. */
export const ROWS: Row[] = [
  {
    what: 'J30, % over the optimum, at 1,000 / 5,000 / 50,000 schedules',
    published: '0.10 / 0.02 / 0.00',
    goal: '0.15 / 0.03 / 0.00',
    measured: (all) => atSchedules(all, 'j30', ({ overBest }) => percent(overBest)),
    on: (all) => files(all, 'j30'),
  },
  {
    what: 'J60, % over the critical path, at the same',
    published: '11.31 / 10.57 / 10.49',
    goal: '11.4 / 10.8 / 10.55',
    measured: (all) => atSchedules(all, 'j60', ({ overPath }) => percent(overPath)),
    on: (all) => files(all, 'j60'),
  },
  {
    what: 'J120, % over the critical path, at the same',
    published: '33.55 / 32.18 / 30.08',
    goal: '34.0 / 32.2 / 30.8',
    measured: (all) => atSchedules(all, 'j120', ({ overPath }) => percent(overPath)),
    on: (all) => files(all, 'j120'),
  },
  {
    what: 'the same three at 50,000 schedules, % over the best known',
    published: '-',
    goal: '-',
    measured: (all) => {
      const over = ['j30', 'j60', 'j120'].map((set) => percent(all.schedules[2]?.sets[set]?.overBest));
      return over.every((one) => one === '-') ? null : over.join(' / ');
    },
    on: () => 'the same files',
  },
  {
    what: 'J30 proved optimal, 10 s each',
    published: 'all 480 (600 s, 4 threads)',
    goal: '95 %',
    measured: (all) => inTime(all, 'j30', ({ proved }) => `${percent(proved, 0)} %`),
    on: (all) => `${files(all, 'j30')}, ${all.proofSeconds} s`,
  },
  {
    what: 'J60 proved optimal, 10 s each',
    published: '437 of 480 (600 s, 4 threads)',
    goal: '80 %',
    measured: (all) => inTime(all, 'j60', ({ proved }) => `${percent(proved, 0)} %`),
    on: (all) => `${files(all, 'j60')}, ${all.proofSeconds} s`,
  },
  {
    what: 'multi-skill, 10 s each, beside a constraint solver’s 600 s: never worse / better on open ones / proved',
    published: '- / - / 478 of 710',
    goal: '95 % / a third / 45 %',
    measured: (all) =>
      inTime(all, 'mspsp', ({ met, openBettered, proved }) =>
        [met, openBettered, proved].map((share) => `${percent(share, 0)} %`).join(' / '),
      ),
    on: (all) => `${files(all, 'mspsp')}, ${all.proofSeconds} s`,
  },
  {
    what: 'multi-skill with levels, 20 s each, mean gap to the best bound',
    published: '-',
    goal: '0.5 %',
    measured: (all) => inTime(all, 'imopse', ({ overBound }) => `${percent(overBound)} %`),
    on: (all) => `${files(all, 'imopse')}, ${all.levelSeconds} s`,
  },
  {
    what: 'schedules a second, J30 / J60 / J120',
    published: '-',
    goal: '80,000 / 60,000 / 40,000',
    measured: (all) => {
      const rates = ['j30', 'j60', 'j120'].map((set) => all.schedules.at(-1)?.sets[set]?.schedulesASecond);
      return rates.some((rate) => rate === undefined)
        ? null
        : rates.map((rate) => Math.round(rate ?? 0).toLocaleString('en')).join(' / ');
    },
    on: () => 'the same files, most schedules',
  },
  fromFigure('network pass, 100,000 tasks, 300,000 links / from the records', 'memory bandwidth', '50 ms', [
    '100,000 tasks and 300,000 links: dates',
    '100,000 tasks and 300,000 links: the same',
  ]),
  fromFigure('demo yard: first plan, in a fresh thread / once compiled', '-', '100 ms', [
    'demo yard: first plan, cold',
    'demo yard: first plan, code compiled',
  ]),
  fromFigure('demo yard: over the bound after 10 s', '-', '3 %', ['demo yard: % over']),
  fromFigure('demo yard: plan after a tally / an absence / a late delivery', '-', '200 ms', [
    'demo yard: plan after a tally',
    'demo yard: plan after an absence',
    'demo yard: plan after a late delivery',
  ]),
  fromFigure('demo yard: the same once compiled', '-', '200 ms', [
    'demo yard: plan after a tally, code compiled',
    'demo yard: plan after an absence, code compiled',
    'demo yard: plan after a late delivery, code compiled',
  ]),
  fromFigure('demo yard: posted places kept after them', '-', 'most', [
    'demo yard: places kept after a tally',
    'demo yard: places kept after an absence',
    'demo yard: places kept after a late delivery',
  ]),
  fromFigure('large yard: first plan, in a fresh thread / once compiled', '-', '2 s', [
    '5,000 tasks, 300 people, 3 years: first plan, cold',
    '5,000 tasks, 300 people, 3 years: first plan, code compiled',
  ]),
  fromFigure('large yard: peak memory', '-', '1 GiB', ['5,000 tasks, 300 people, 3 years: peak']),
  fromFigure('forecast, demo yard, 10,000 futures', '-', '2 s', ['demo yard: forecast']),
];

type Set = Measured['inTime'][string];

function atSchedules({ schedules }: Measured, set: string, told: (one: Set) => string): string | null {
  const values = schedules.map(({ sets }) => (set in sets ? told(sets[set]) : '-'));
  return values.every((one) => one === '-') ? null : values.join(' / ');
}

function inTime({ inTime: sets }: Measured, set: string, told: (one: Set) => string): string | null {
  return set in sets ? told(sets[set]) : null;
}

function files({ schedules, inTime: sets }: Measured, set: string): string {
  const count =
    schedules.find((one) => set in one.sets)?.sets[set].files ?? (set in sets ? sets[set].files : 0);
  return `${count} files`;
}

function fromFigure(what: string, published: string, goal: string, names: string[]): Row {
  return {
    what,
    published,
    goal,
    measured: ({ figures }) => {
      const found = names.flatMap((name) => figures.filter((one) => one.name.startsWith(name)).slice(0, 1));
      if (found.length < names.length) return null;
      const of = (name: string) => /, of (\d+) posted/.exec(name)?.[1];
      return found
        .map(({ name, value, unit }) => (of(name) ? `${value} of ${of(name)}` : `${value} ${unit}`))
        .join(' / ');
    },
    on: () => 'the figures’ yard, one seed',
  };
}
