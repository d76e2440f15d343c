import {
  type After,
  type Hazard,
  type MethodSeat,
  type Step,
  type ThreePoint,
  type Touching,
} from '../method.js';

// Short hand for writing steps down; the steps themselves are plain data.

const PLAIN: Omit<Step, 'key' | 'title'> = {
  kind: 'work',
  estimate: null,
  crew: { min: 1, efficient: 2, max: 3 },
  seats: [],
  cards: [],
  leastAge: 18,
  oneGo: false,
  setUpMinutes: 10,
  tools: [],
  opens: false,
  closes: false,
  hazards: [],
  cautions: [],
  noticeDays: null,
  onlyWith: null,
  after: [],
};

type Rest = Partial<Omit<Step, 'key' | 'title' | 'kind' | 'crew' | 'estimate'>>;

export const counted = (
  key: string,
  title: string,
  count: NonNullable<Step['onlyWith']>,
  rate: string,
  crew: [number, number, number],
  rest: Rest = {},
): Step => ({
  ...PLAIN,
  ...rest,
  key,
  title,
  estimate: { by: 'count', count, rate },
  crew: crewOf(crew),
  onlyWith: rest.onlyWith ?? count,
});

export const worked = (
  key: string,
  title: string,
  hours: [number, number, number],
  crew: [number, number, number],
  rest: Rest & { each?: Step['onlyWith'] } = {},
): Step => {
  const { each = null, ...more } = rest;
  return {
    ...PLAIN,
    ...more,
    key,
    title,
    estimate: { by: 'work', personMinutes: threePoint(hours), each },
    crew: crewOf(crew),
  };
};

/** A lift, a class: the same length whatever the crew. */
export const lasting = (
  key: string,
  title: string,
  hours: [number, number, number],
  crew: [number, number, number],
  rest: Rest = {},
): Step => ({
  ...PLAIN,
  oneGo: true,
  ...rest,
  key,
  title,
  kind: 'fixed',
  estimate: { by: 'time', minutes: threePoint(hours) },
  crew: crewOf(crew),
});

/** Time that passes by itself. */
export const passing = (
  key: string,
  title: string,
  hours: [number, number, number],
  rest: Rest = {},
): Step => ({
  ...PLAIN,
  ...rest,
  key,
  title,
  kind: 'elapsed',
  estimate: { by: 'time', minutes: threePoint(hours) },
  crew: crewOf([0, 0, 0]),
  leastAge: null,
  setUpMinutes: 0,
});

/** A say-so: by somebody of the yard in a seat, or by somebody outside. */
export const hold = (key: string, title: string, rest: Rest = {}): Step => {
  const people = (rest.seats ?? []).reduce((sum, seat) => sum + seat.count, 0);
  return {
    ...PLAIN,
    leastAge: null,
    setUpMinutes: 0,
    ...rest,
    key,
    title,
    kind: 'hold',
    crew: crewOf([people, people, people]),
  };
};

const crewOf = ([min, efficient, max]: [number, number, number]): Step['crew'] => ({ min, efficient, max });

const threePoint = ([low, likely, high]: [number, number, number]): ThreePoint => ({
  low: Math.round(low * 60),
  likely: Math.round(likely * 60),
  high: Math.round(high * 60),
});

export const seat = (skill: string, level = 2, count = 1, cards: string[] = []): MethodSeat => ({
  skill,
  level,
  count,
  cards,
});

export const after = (step: string, of: Touching = 'itself'): After => ({
  step,
  of,
  relation: 'finish-to-start',
  lag: { turnouts: 0 },
});

export const afterStart = (step: string, turnouts: number, of: Touching = 'itself'): After => ({
  step,
  of,
  relation: 'start-to-start',
  lag: { turnouts },
});

export const endsAfter = (step: string, turnouts: number, of: Touching = 'itself'): After => ({
  step,
  of,
  relation: 'finish-to-finish',
  lag: { turnouts },
});

/** Anything that scrapes, reefs, punches, digs or cuts in old paint. */
export const OLD_PAINT: Hazard[] = ['lead', 'eye', 'dust'];
export const LEAD_CAUTION =
  'Old paint is taken for lead paint until tested: no dry scraping or sanding, wash before eating, for everybody.';
