import { COUNT_NAMES, EYES, HAZARDS, type MethodBook } from '@ribband/hull';
import { z } from 'zod';
import { relations } from '../links/link-words.js';

const words = z.string().trim().min(1).max(2000);
const key = z.string().min(1).max(100);
const whole = z.int().min(0).max(100_000);
const positive = z.number().positive().max(10_000_000);
const threePoint = z.strictObject({ low: positive, likely: positive, high: positive });
const count = z.enum(COUNT_NAMES);

const origin = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('document'), document: words }),
  z.strictObject({ kind: z.literal('memory'), document: words }),
  z.strictObject({ kind: z.literal('practice') }),
]);

const after = z.strictObject({
  step: key,
  of: z.enum([
    'itself',
    'planks over it',
    'ceiling over it',
    'frames under it',
    'strake below',
    'strake above',
    'all planks',
    'all frames',
    'all ceiling',
    'all causes',
    'vessel',
  ]),
  relation: z.enum(relations),
  lag: z.union([
    z.strictObject({ turnouts: z.number().min(0).max(1000) }),
    z.strictObject({ elapsedMinutes: whole }),
  ]),
});

const step = z.strictObject({
  key,
  title: words,
  kind: z.enum(['work', 'fixed', 'elapsed', 'hold', 'launch']),
  estimate: z
    .discriminatedUnion('by', [
      z.strictObject({ by: z.literal('count'), count, rate: key }),
      z.strictObject({ by: z.literal('work'), personMinutes: threePoint, each: count.nullable() }),
      z.strictObject({ by: z.literal('time'), minutes: threePoint }),
    ])
    .nullable(),
  crew: z.strictObject({ min: whole, efficient: whole, max: whole }),
  seats: z
    .array(
      z.strictObject({
        skill: words,
        level: z.int().min(1).max(4),
        count: z.int().min(1).max(100),
        cards: z.array(words).max(20),
      }),
    )
    .max(20),
  cards: z.array(words).max(20),
  leastAge: z.int().min(0).max(99).nullable(),
  oneGo: z.boolean(),
  setUpMinutes: z.int().min(0).max(600),
  tools: z.array(z.strictObject({ tool: words, count: z.int().min(1).max(1000) })).max(20),
  opens: z.boolean(),
  closes: z.boolean(),
  hazards: z.array(z.enum(HAZARDS)).max(20),
  cautions: z.array(words).max(20),
  noticeDays: z.int().min(0).max(365).nullable(),
  eyes: z.enum(EYES).optional(),
  sets: z.enum(['shore', 'brace', 'ribband']).optional(),
  onlyWith: count.nullable(),
  after: z.array(after).max(50),
});

export const methodShape = z.strictObject({
  key,
  version: z.int().min(1),
  title: words,
  for: z.enum(['frame', 'plank', 'ceiling', 'cause', 'vessel']),
  steps: z.array(step).min(1).max(200),
  changed: z.strictObject({ by: words, reason: words }).optional(),
  changes: z
    .array(
      z.strictObject({ version: z.int().min(1), by: words, reason: words, what: z.array(words).max(400) }),
    )
    .max(50)
    .optional(),
});

/** A book as it comes in; whether its parts agree is asked of `checkBook`. */
export const bookShape: z.ZodType<MethodBook> = z.strictObject({
  format: z.literal('ribband-methods/1'),
  rates: z
    .array(
      z.strictObject({
        key,
        says: words,
        unit: words,
        low: positive,
        likely: positive,
        high: positive,
        origin,
        usual: threePoint.optional(),
      }),
    )
    .max(200),
  methods: z.array(methodShape).min(1).max(100),
});

const ref = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
  .max(100);
const names = z.record(words, ref);

/** The yard's methods, and how what they make is fitted into the yard's own list of tasks. */
export const methodsShape = z.strictObject({
  book: bookShape,
  /** Working minutes that stand for "one turnout later". */
  minutesATurnout: z.int().min(1).max(1440),
  /** Words of the book that the yard says otherwise: the yard's refs by the book's words. */
  names: z.strictObject({ skills: names, tools: names, cards: names }),
  /** Tasks of the yard's own list that stand for a step: their refs by the step's ref, such as `vessel-staging`. */
  ownTasks: z.record(ref, ref),
  /** What the yard has taken out of what the methods make, by hand. */
  leftOut: z.strictObject({
    tasks: z.array(ref).max(5000),
    links: z.array(z.strictObject({ before: ref, after: ref, relation: z.enum(relations) })).max(20_000),
  }),
});

export type MethodsDocument = z.infer<typeof methodsShape>;
