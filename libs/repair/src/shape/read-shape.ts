import { refuse } from '@ribband/platform';
import { z } from 'zod';
import { firstFault } from '../first-fault.js';
import type { MeasuredShape } from './hull-shape.entity.js';

const length = z.number().min(-1_000_000).max(1_000_000);
const point = z.strictObject({ height: length, breadth: length });
const points = z.array(point).max(60);
const surface = z.enum(['outside of planking', 'outside of frames']);

/** A measured shape as documents and the API have it: lengths in millimetres, a model's at the model's own size. */
export const shapeForm = z.discriminatedUnion('by', [
  z.strictObject({
    by: z.literal('half model'),
    scale: z.number(),
    every: z.number(),
    firstAt: length,
    sections: z.array(points).max(80),
    surface,
  }),
  z.strictObject({
    by: z.literal('offsets'),
    sections: z.array(z.strictObject({ at: length, points })).max(80),
    surface,
  }),
]);

/** @throws RefusalError BAD_INPUT naming the first field that has another form */
export function readShape(value: unknown, prefix: string): MeasuredShape {
  const read = shapeForm.safeParse(value);
  if (read.success) return read.data;
  const { path, message } = firstFault(read.error, prefix);
  return refuse('BAD_INPUT', `The shape has no right value at ${path}: ${message}.`, {
    field: path,
    remedy: 'Heights and breadths in millimetres, section by section from forward, up from the rabbet.',
  });
}
