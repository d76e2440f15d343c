import { girthAt, mouldedAt } from '../framing/girth.js';
import { toFeet, toInches } from '../measure.js';
import { type Frame, type FramePiece, type Hull, type Plank } from '../model/hull.js';
import { plankFeet } from '../scope/plank-hours.js';
import { pieceWeight } from './sizes.js';

/** A plank's pounds from butt to butt, at so many pounds a cubic foot. */
export const plankPounds = (hull: Hull, plank: Plank, density: number): number =>
  pieceWeight(toInches(plank.thickness), toInches(plank.width), plankFeet(hull, plank), density).pounds;

/**
 * Pounds of a frame piece, or of its part between two heights in strakes, at so many pounds a cubic foot: as long as
 * the girth, as deep as the frame is moulded half way. A floor timber crosses the keel: it is as long on the other side.
 */
export function framePiecePounds(
  hull: Hull,
  frame: Frame,
  piece: FramePiece,
  density: number,
  { from = piece.from, to = piece.to }: { from?: number; to?: number } = {},
): number {
  const length = girthAt(hull, frame.side, to) - girthAt(hull, frame.side, from);
  const sides = piece.number === 0 ? 2 : 1;
  const moulded = mouldedAt(frame, (from + to) / 2);
  return pieceWeight(toInches(hull.outline.frames.sided), toInches(moulded), sides * toFeet(length), density)
    .pounds;
}
