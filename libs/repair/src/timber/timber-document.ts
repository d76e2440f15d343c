import { z } from 'zod';
import { shapeForm } from '../shape/read-shape.js';
import { stockUses } from './flitch.entity.js';
import { sourceKinds } from './source.entity.js';

const words = z.string().trim().min(1).max(1000);
const key = z.string().min(1).max(100);
const day = z.iso.date();
const measure = z.int().min(-1_000_000).max(1_000_000);
const points = z
  .string()
  .max(20_000)
  .regex(/^-?\d+,-?\d+( -?\d+,-?\d+)*$/);

const defect = z.strictObject({ along: measure, across: measure, length: measure, width: measure });

/**
 * The timber's part of a yard document. Logs and flitches are named by their marks, sources by `ref`, pieces by the
 * hull's own keys; measures are whole millimetres except where the name says otherwise, outlines are written as the
 * points of an SVG polygon.
 */
export const timberForm = z.strictObject({
  shape: shapeForm.nullable(),
  settings: z
    .strictObject({
      fahrenheit: z.number(),
      humidity: z.number().min(0).max(0.99),
      plankingPercent: z.number().positive(),
      framesPercent: z.number().positive().nullable(),
      usableShare: z.number().positive().max(1),
      poundsACubicFoot: z.number().positive(),
      sawMarginMillimetres: z.int().min(0).max(100),
      grainRunOut: z.number().positive().max(1),
      leadDays: z.int().min(1).max(730),
      changedBy: words,
      changedReason: words,
    })
    .nullable(),
  sources: z
    .array(
      z.strictObject({
        ref: key,
        name: words,
        kind: z.enum(sourceKinds),
        note: words.nullable(),
        thankedOn: day.nullable(),
        thankedBy: words.nullable(),
      }),
    )
    .max(500),
  trips: z
    .array(
      z.strictObject({
        wentOn: day,
        whereTo: words,
        minutes: z.int().min(1).max(1440),
        volunteers: z.array(key).min(1).max(40),
        found: words.nullable(),
      }),
    )
    .max(500),
  logs: z
    .array(
      z.strictObject({
        mark: key,
        species: words,
        source: key.nullable(),
        diameterInches: z.number().positive().max(96),
        lengthFeet: z.number().positive().max(120),
        cameOn: day.nullable(),
        reservedFor: words.nullable(),
        note: words.nullable(),
      }),
    )
    .max(500),
  flitches: z
    .array(
      z.strictObject({
        mark: key,
        species: words,
        use: z.enum(stockUses),
        taped: z.strictObject({
          thickness: measure,
          length: measure,
          widths: z.array(measure).min(2).max(12),
          sweep: measure,
          sapwood: measure,
          defects: z.array(defect).max(20),
        }),
        log: key.nullable(),
        source: key.nullable(),
        expectedOn: day.nullable(),
        /** The first day promised, where it was put off or has passed; and when it came. */
        promisedOn: day.nullable().optional(),
        cameOn: day.nullable().optional(),
        lies: words.nullable(),
        reservedFor: words.nullable(),
        usedOn: day.nullable(),
        readings: z
          .array(
            z.strictObject({
              on: day,
              percent: z.number().positive().max(200),
              by: words,
              withdrawnReason: words.nullable(),
            }),
          )
          .max(500),
      }),
    )
    .max(1000),
  layUp: z
    .strictObject({
      madeOn: day,
      keptBy: words,
      placed: z
        .array(
          z.strictObject({
            piece: key,
            flitch: key,
            points,
            turnedOver: z.boolean(),
            grainRunOut: z.number().min(0).max(100),
          }),
        )
        .max(1000),
      wanting: z
        .array(
          z.strictObject({
            piece: key,
            why: z.enum(['no stock is thick enough', 'no place with room and grain']),
          }),
        )
        .max(1000),
      /** Square millimetres of the flitches begun, and of the pieces on them. */
      stockUsed: z.number().min(0),
      stockAtLeast: z.number().min(0),
    })
    .nullable(),
  promises: z
    .array(
      z.strictObject({
        piece: key,
        expectedOn: day,
        /** The first day promised, where it was put off. */
        promisedOn: day.optional(),
        note: words.nullable(),
        by: words,
      }),
    )
    .max(1000),
});

export type TimberDocument = z.infer<typeof timberForm>;

/** Nothing in the book yet. */
export const noTimber: TimberDocument = {
  shape: null,
  settings: null,
  sources: [],
  trips: [],
  logs: [],
  flitches: [],
  layUp: null,
  promises: [],
};
