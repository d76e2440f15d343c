import { type OpeningSettings, SCARF_KINDS } from '@ribband/hull';
import { z } from 'zod';

const words = z.string().trim().min(1).max(2000);
const key = z.string().min(1).max(100);
const whole = z.int().min(0).max(1000);
const height = z.number().min(0).max(100);
const side = z.enum(['port', 'starboard']);
const day = z.iso.date();
const range = z.tuple([whole, whole]);

/** Who looked, when, and what there is to say. */
const seen = { by: words, on: day, note: words.nullable() };

const frames = { frames: range, side, pieces: z.array(whole).min(1).max(20), cause: key.nullable(), ...seen };

/** Where a piece is parted, which part of it comes out, and who decided so. */
const cut = { at: height, part: z.enum(['above', 'below']), why: words, decidedBy: words };

const finding = z.union([
  z.strictObject({ ...frames, condition: z.enum(['sound', 'doubtful', 'sister']) }),
  z.strictObject({
    ...frames,
    condition: z.literal('renew'),
    /** How far the decay reaches, in strakes from the rabbet; without it the whole piece comes out. */
    decay: z.strictObject({ from: height, to: height }).optional(),
  }),
  z.strictObject({
    ...frames,
    /** A new joint at a place that the shipwright decided. */
    condition: z.literal('new joint'),
    ...cut,
  }),
  z.strictObject({
    ...frames,
    /** A scarf there, that reaches into the wood that stays. */
    condition: z.literal('scarf'),
    scarf: z.enum(SCARF_KINDS),
    ...cut,
  }),
  z.strictObject({ plank: key, condition: z.enum(['sound', 'doubtful']), cause: key.nullable(), ...seen }),
  z.strictObject({
    plank: key,
    condition: z.literal('renew'),
    /** First and last frame of the new wood where only a part is renewed. */
    part: range.optional(),
    cause: key.nullable(),
    ...seen,
  }),
]);

const written = { by: words, reason: words };
const atMost = z.int().min(1).max(80);

/** The limits of an opening as the shipwright changed them in writing. */
const openings: z.ZodType<OpeningSettings> = z.strictObject({
  neighbourFrames: z.strictObject({ value: atMost, ...written }).optional(),
  frameRun: z
    .strictObject({ value: z.strictObject({ atMost, of: z.int().min(2).max(20) }), ...written })
    .optional(),
  strakeRun: z
    .strictObject({ value: z.strictObject({ atMost }), ribbandsStand: z.boolean(), ...written })
    .optional(),
  bothSides: z.strictObject({ value: atMost, ...written }).optional(),
  keepClosed: z
    .strictObject({ value: z.array(z.enum(['garboard', 'bilge', 'sheer'])).max(3), ...written })
    .optional(),
});

/**
 * What was found, by ranges: a later finding overrules an earlier one of the same piece, what none names is sound.
 * And what the shipwright chose between that and the work.
 */
export const surveyShape = z.strictObject({
  causes: z
    .array(
      z.strictObject({
        key: z
          .string()
          .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
          .max(100),
        name: words,
        /** Whether it is mended in this haul-out; else the repair is said to be temporary. */
        hasTask: z.boolean(),
      }),
    )
    .max(100),
  findings: z.array(finding).max(1000),
  choices: z.strictObject({
    aim: z.enum(['fewest planks', 'least hours', 'fewest fastenings cut']),
    ceiling: z.enum(['strip in way', 'leave', 'as the aim has it']),
    /** Strakes under whose frame heads a piece can be slid out while they stay on. */
    stayOverHead: z.int().min(0).max(20),
    /** Planks that must not come off, and those that come off anyway. */
    stays: z.array(key).max(500),
    offAnyway: z.array(key).max(500),
    /** A ceiling plank that stays open through the float watch. */
    inspectionStrake: key.nullable(),
    by: words,
    /** Wanted where another opening costs fewer hours. */
    reason: words.nullable(),
    openings,
  }),
});

export type SurveyDocument = z.infer<typeof surveyShape>;
export type Finding = SurveyDocument['findings'][number];
