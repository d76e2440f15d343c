import { plankFeet } from '../scope/plank-hours.js';
import { feet, type Millimetres } from '../measure.js';
import { pieceOf, plankOf } from '../model/ask.js';
import { type Hull } from '../model/hull.js';
import { type Drawn } from '../scope/drawn.js';
import { type Offsets } from '../shape/offsets.js';
import { futtockPatterns, isMeasuredAt } from '../shape/patterns.js';
import { stockPatternOf } from './lay-up.js';
import { type StockPattern } from './stock.js';

/** What a repair needs in stock. */
export interface StockWish {
  drawn: Drawn[];
  /** Keys of planks that are made new. */
  planks: string[];
  /** Null before the shape was measured: then only planks have patterns. A frame beyond its sections has none either. */
  offsets: Offsets | null;
  /** What bevel and saw need all round. */
  margin: Millimetres;
}

/**
 * Patterns for all new wood of a repair. A plank's is straight, as long and as wide as the plank with the margin:
 * its own curves are spiled on her, not lofted.
 */
export function stockPatterns(hull: Hull, { drawn, planks, offsets, margin }: StockWish): StockPattern[] {
  const wishes = drawn
    .map(({ piece, from, to }) => ({ piece: pieceOf(hull, piece), from, to }))
    .filter(({ piece }) => offsets !== null && isMeasuredAt(hull, offsets, piece.frame));
  const frames = offsets === null || wishes.length === 0 ? [] : futtockPatterns(hull, offsets, wishes);
  return [
    ...frames.map((pattern) => stockPatternOf(pattern, margin)),
    ...planks.map((key) => plank(hull, key, margin)),
  ];
}

function plank(hull: Hull, key: string, margin: Millimetres): StockPattern {
  const { name } = plankOf(hull, key);
  const { width, thickness } = hull.outline.strakes;
  const length = feet(plankFeet(hull, plankOf(hull, key))) + 2 * margin;
  const wide = width + 2 * margin;
  return {
    key,
    name,
    outline: [
      { x: 0, y: 0 },
      { x: length, y: 0 },
      { x: length, y: wide },
      { x: 0, y: wide },
    ],
    centre: [
      { x: 0, y: wide / 2 },
      { x: length, y: wide / 2 },
    ],
    thickness,
  };
}
