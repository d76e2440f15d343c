import { type Millimetres, toFeet, toInches } from '../measure.js';
import { boardFeet } from '../timber/log-rules.js';
import { type Point } from '../shape/patterns.js';
import { boxOf, distanceToSegment, type Outline } from './polygon.js';
import { type StockPattern } from './stock.js';

/** What to look for in the woods or the yard: one curved piece, as it can be held against a log. */
export interface Wanted {
  pattern: string;
  name: string;
  /** Chord of the line of grain. */
  length: Millimetres;
  /** Width of a straight slab that would hold it. */
  slabWidth: Millimetres;
  thickness: Millimetres;
  /** Greatest distance of the line of grain from its chord, and where along it, 0 at the heel to 1 at the head. */
  sweep: Millimetres;
  sweepAt: number;
  /** Of the straight slab. */
  boardFeet: number;
  outline: Outline;
}

/** A list to carry, longest piece first. */
export const wantedList = (patterns: StockPattern[]): Wanted[] =>
  patterns.map(wantedPiece).sort((a, b) => b.length - a.length);

function wantedPiece({ key, name, outline, centre, thickness }: StockPattern): Wanted {
  const [heel, head] = [centre[0], centre[centre.length - 1]];
  const length = Math.hypot(head.x - heel.x, head.y - heel.y);
  const [c, s] = [(head.x - heel.x) / length, (head.y - heel.y) / length];
  const along = (point: Point): Point => ({
    x: (point.x - heel.x) * c + (point.y - heel.y) * s,
    y: -(point.x - heel.x) * s + (point.y - heel.y) * c,
  });
  const box = boxOf(outline.map(along));
  const deepest = centre.reduce((far, point) =>
    distanceToSegment(point, heel, head) > distanceToSegment(far, heel, head) ? point : far,
  );
  return {
    pattern: key,
    name,
    length,
    slabWidth: box.high - box.low,
    thickness,
    sweep: distanceToSegment(deepest, heel, head),
    sweepAt: along(deepest).x / length,
    boardFeet: boardFeet(toInches(thickness), toInches(box.high - box.low), toFeet(box.right - box.left)),
    outline,
  };
}
