import type { HullOutline } from '@ribband/hull';
import { z } from 'zod';

/**
 * The shape of an outline as it comes in, from the page or a yard document: sizes in millimetres, heights in strakes
 * from the rabbet, bays by the frame before them. Whether its numbers agree is asked of `buildHull`.
 */
const size = z.number().min(1).max(100_000);
const height = z.number().min(0).max(100);
const whole = z.int().min(0).max(1000);
const range = z.tuple([whole, whole]);
const side = z.enum(['port', 'starboard']);
const words = z.string().trim().min(1).max(500);
const bays = z.array(whole).max(400);

const ends = z.strictObject({ heel: size, head: size });
const joints = z.strictObject({ forward: z.array(height).max(20), aft: z.array(height).max(20) });
const butts = z.strictObject({ first: bays, every: whole, leaveAft: whole });

const origin = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('document'), document: words }),
  z.strictObject({ kind: z.literal('memory'), document: words }),
  z.strictObject({ kind: z.literal('practice') }),
]);

const nails = z.int().min(0).max(12);
const nailing = z.strictObject({
  key: words,
  says: words,
  origin,
  bands: z
    .array(
      z.strictObject({
        upTo: z.number().positive().nullable(),
        included: z.boolean(),
        nails: z.union([z.tuple([nails]), z.tuple([nails, nails])]),
      }),
    )
    .min(1)
    .max(20),
});

const exception = z.union([
  z.strictObject({
    frames: range,
    side: side.optional(),
    joints: joints.optional(),
    head: height.optional(),
    moulded: ends.optional(),
    space: size.optional(),
  }),
  z.strictObject({
    strakes: range,
    side: side.optional(),
    width: size.optional(),
    thickness: size.optional(),
    buttBays: bays.optional(),
    nailsAtFrame: nails.optional(),
    over: range.optional(),
  }),
]);

const shape = z.strictObject({
  frames: z.strictObject({
    count: whole,
    roomAndSpace: size,
    sided: size,
    moulded: ends,
    head: height,
    floorLayer: z.enum(['forward', 'aft']),
    joints,
    boltsEachSideOfJoint: whole,
  }),
  strakes: z.strictObject({
    count: whole,
    width: size,
    thickness: size,
    butts: z.strictObject({ port: butts, starboard: butts }),
    bilge: z.array(whole).max(100),
  }),
  ceiling: z.strictObject({
    strakes: whole,
    from: height,
    to: height,
    thickness: size,
    nails,
    buttBays: bays,
  }),
  members: z.array(z.strictObject({ name: words, at: height, width: size, boltsAtFrame: whole })).max(50),
  nailing,
  exceptions: z.array(exception).max(200).optional(),
});

/** What an outline already on record may have got wrong without harm, and a new one may not. */
export const outlineShape: z.ZodType<HullOutline> = shape.check(({ value, issues }) => {
  const { strakes, members } = value;
  const fault = (path: (string | number)[], message: string): void => {
    issues.push({ code: 'custom', path, message, input: value });
  };
  strakes.bilge.forEach((strake, i) => {
    if (strake < 1 || strake > strakes.count || strakes.bilge.indexOf(strake) < i)
      fault(['strakes', 'bilge', i], `each a strake from 1 to ${strakes.count}, once`);
  });
  members.forEach(({ name }, i) => {
    if (members.findIndex((one) => one.name === name) < i) fault(['members', i, 'name'], 'each member once');
  });
});
