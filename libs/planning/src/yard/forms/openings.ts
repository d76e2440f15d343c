import { leaves } from '@ribband/crew';
import { z } from 'zod';
import { frame, side } from './form-leaves.js';

const { day, list, ref, time, whole, words } = leaves;

const dated = z.strictObject({ on: day, by: words }).nullable();

/** What holds her and what was seen while she is open. */
export const openingsForm = z.strictObject({
  supports: list(
    z.strictObject({
      ref,
      kind: z.enum(['shore', 'brace', 'ribband']),
      side: side.nullable(),
      firstFrame: frame.nullable(),
      lastFrame: frame.nullable(),
      task: ref.nullable(),
      seen: dated,
      struck: dated,
    }),
    500,
  ),
  reports: list(
    z.strictObject({
      element: ref,
      isOpen: z.boolean(),
      seenBy: words,
      on: day,
      time,
      enteredBy: words,
      note: words.nullable(),
    }),
  ),
  witnessMarks: list(
    z.strictObject({
      ref,
      name: words,
      kind: z.enum(['breadth', 'keel', 'sheer', 'other']),
      frame: frame.nullable(),
      everyDays: whole.min(1).max(90),
      entries: list(
        z.discriminatedUnion('kind', [
          z.strictObject({
            kind: z.literal('reading'),
            on: day,
            time: z.enum(['afloat', 'after blocking', 'later']),
            reader: words,
            millimetres: z.number().min(0.001).max(100_000),
            enteredBy: words,
            struck: z.strictObject({ by: words, reason: words }).nullable(),
          }),
          z.strictObject({ kind: z.literal('lift'), by: words, reason: words }),
        ]),
      ),
    }),
    200,
  ),
  holdPoints: list(
    z.strictObject({
      task: ref,
      eyes: z.enum(['surveyor', 'insurer', 'funder', 'inspector', 'sling']),
      noticeDays: whole.min(0).max(180),
      notice: dated,
      seen: dated,
      note: words.nullable(),
    }),
  ),
  plankLayouts: list(
    z.strictObject({
      side,
      butts: list(z.strictObject({ strake: frame, bay: frame }), 500),
      by: words,
      reason: words,
    }),
    2,
  ),
});
