import { leaves } from '@ribband/crew';
import { hazardCodes } from '@ribband/repair';
import { z } from 'zod';
import { count, level, share, side } from './form-leaves.js';

const { day, list, ref, whole, words } = leaves;
const hands = whole.min(0).max(200);

const threePoint = (least: number) => {
  const value = z.number().min(least).max(10_000_000);
  return z.strictObject({ low: value, likely: value, high: value });
};

const estimate = z.discriminatedUnion('by', [
  /** So many of something at so many an hour for one person. */
  z.strictObject({
    by: z.literal('count'),
    unit: words,
    count: whole.min(1).max(1_000_000),
    perPersonHour: threePoint(0.001),
  }),
  /** Work that a crew shares: person-minutes. */
  z.strictObject({ by: z.literal('work'), personMinutes: threePoint(1) }),
  /** A length of time whatever the crew: minutes. */
  z.strictObject({ by: z.literal('time'), minutes: threePoint(1) }),
]);

export const elementForm = z.strictObject({
  ref,
  name: words,
  kind: z.enum(['frame', 'plank', 'ceiling', 'floor', 'deck', 'other']),
  side: side.nullable(),
  frame: whole.nullable(),
  strake: whole.nullable(),
});

export const openingLimitForm = z.strictObject({
  ref,
  name: words,
  elements: list(ref),
  atMost: count,
  basis: words,
  override: z
    .strictObject({
      by: words,
      reason: words,
      elements: list(ref, 500).nullable().default(null),
      untilOn: day.nullable().default(null),
    })
    .nullable(),
});

export const taskForm = z.strictObject({
  ref,
  title: words,
  kind: z.enum(['work', 'fixed', 'elapsed', 'hold', 'launch']),
  position: words.nullable(),
  estimate: estimate.nullable(),
  crew: z.strictObject({ min: hands, efficient: hands, max: hands }),
  seats: list(z.strictObject({ skill: ref, level, count: whole.min(1).max(100), cards: list(ref, 20) }), 20),
  cards: list(ref, 20),
  leastAge: whole.min(0).max(99).nullable(),
  oneGo: z.boolean(),
  setUpMinutes: whole.min(0).max(600),
  extraHandShare: share,
  learnerShare: share,
  tools: list(z.strictObject({ tool: ref, count: whole.min(1).max(1000) }), 20),
  opens: list(ref, 200),
  closes: list(ref, 200),
  hazards: list(z.enum(hazardCodes), 20),
  cautions: list(words, 20),
  notBefore: day.nullable(),
  held: words.nullable(),
  progress: z.strictObject({ startedOn: day, endedOn: day.nullable() }).nullable(),
});

export const linkForm = z.strictObject({
  before: ref,
  after: ref,
  relation: z.enum(['finish-to-start', 'start-to-start', 'finish-to-finish', 'start-to-finish']),
  lagMinutes: whole.min(-1_000_000).max(1_000_000),
  lagKind: z.enum(['working', 'elapsed']),
});

export const tallyForm = z.strictObject({
  task: ref,
  volunteer: ref.nullable(),
  on: day,
  count: whole.min(0).max(1_000_000).nullable(),
  minutes: whole.min(0).max(100_000),
  finished: z.boolean(),
  note: words.nullable(),
});
