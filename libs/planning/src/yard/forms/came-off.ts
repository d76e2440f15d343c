import { leaves } from '@ribband/crew';
import {
  cares,
  lineKinds,
  pictureTypes,
  pieceFaces,
  pieceFates,
  pieceHeadings,
  repairVerdicts,
} from '@ribband/repair';
import { z } from 'zod';
import { count, frame } from './form-leaves.js';

const { day, list, ref, text, whole, words } = leaves;

const people = { by: words, on: day };
const sized = whole.min(1).max(4096);

/** What came off and finds its way back. Corrections are worked in. */
export const cameOffForm = z.strictObject({
  lots: list(
    z.strictObject({
      ref,
      name: words,
      fastening: words,
      size: words,
      count: whole.min(1).max(1_000_000),
      source: words,
      priceCents: count.nullable(),
      cameOn: day,
    }),
    1000,
  ),
  trays: list(
    z.strictObject({
      ref,
      name: words,
      element: ref,
      place: words,
      fastening: words,
      inPlace: count,
      frames: list(z.strictObject({ frame, inPlace: count }), 500),
      pullTask: ref.nullable(),
      driveTask: ref.nullable(),
      entries: list(
        z.strictObject({
          ...people,
          frame: frame.nullable(),
          lines: list(
            z.strictObject({
              kind: z.enum(lineKinds),
              count: whole.min(1).max(100_000),
              reason: words.optional(),
              tray: words.optional(),
            }),
            20,
          ),
          holes: list(
            z.strictObject({
              key: ref,
              nail: z.enum(['sound', 'scrap', 'none']),
              hole: z.enum(['sound', 'enlarged']),
              plugTenths: whole.min(10).max(1000).nullable(),
            }),
            500,
          ),
          counted: count.nullable(),
          lot: ref.nullable(),
          note: words.nullable(),
        }),
      ),
      repairs: list(
        z.strictObject({
          ...people,
          count: whole.min(1).max(100_000),
          verdict: z.enum(repairVerdicts),
          task: ref.nullable(),
          reason: words.nullable(),
        }),
        500,
      ),
    }),
    2000,
  ),
  care: list(z.strictObject({ ...people, fastening: words, care: z.enum(cares), reason: words }), 1000),
  pieces: list(
    z.strictObject({
      code: words,
      name: words,
      element: ref.nullable(),
      place: words,
      face: z.enum(pieceFaces).nullable(),
      heading: z.enum(pieceHeadings).nullable(),
      fate: z.enum(pieceFates),
      keptAt: words.nullable(),
      cameOffOn: day.nullable(),
      notes: list(z.strictObject({ ...people, words }), 1000),
      /** With their bytes as long as there is room: about a megabyte and a half in all. */
      pictures: list(
        z.strictObject({
          hash: text((v) => /^[0-9a-f]{64}$/.test(v), 'is no SHA-256', '64 hexadecimal digits'),
          type: z.enum(pictureTypes),
          width: sized,
          height: sized,
          byteCount: count,
          caption: words.nullable(),
          by: words,
          base64: z.string().max(2_000_000).nullable(),
        }),
        12,
      ),
    }),
    20_000,
  ),
});
