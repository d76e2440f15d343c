import { type Millimetres, toInches } from '../measure.js';
import { frameOf } from '../model/ask.js';
import { type FramePiece, type Hull } from '../model/hull.js';
import { otherLayer } from '../model/names.js';
import { need, needPositive } from '../refusal.js';
import { girthAt, heightAt, mouldedAt } from './girth.js';
import { leastShift, stretchesOf } from './joint-shift.js';
import { JOINT_RULES } from './joint-rules.js';

export type ScarfKind = keyof typeof JOINT_RULES.scarf.value;
export const SCARF_KINDS = Object.keys(JOINT_RULES.scarf.value) as ScarfKind[];

/** Least length of a scarf in a timber of this depth. */
export function scarfLength(kind: ScarfKind, depth: Millimetres): Millimetres {
  needPositive(depth, 'depth', 'millimetres');
  return JOINT_RULES.scarf.value[kind] * depth;
}

/** A scarf in a frame piece: it reaches from where the decay is cut away into the wood that stays. */
export interface Scarf {
  /** Where its feather lies in the wood that stays, in strakes: so far the new wood reaches. */
  toe: number;
  length: Millimetres;
  /** What is left of the old piece, from its far end to the tip of the scarf. */
  remaining: Millimetres;
}

/**
 * A scarf cut at a height in strakes, by the slope for its kind and the moulded depth there. Refused where too little
 * of the old piece is left, as a whole or in full section beyond the scarf.
 */
export function scarfAt(
  hull: Hull,
  piece: FramePiece,
  cut: { at: number; part: 'above' | 'below'; kind: ScarfKind },
): Scarf {
  const { at, part, kind } = cut;
  const frame = frameOf(hull, piece.frame, piece.side);
  const moulded = mouldedAt(frame, at);
  const length = scarfLength(kind, moulded);
  const way = part === 'above' ? -1 : 1;
  const tip = girthAt(hull, piece.side, at);
  const end = girthAt(hull, piece.side, part === 'above' ? piece.from : piece.to);
  const toe = tip + way * length;
  const remaining = way * (end - tip);
  const full = way * (end - toe);
  const least = JOINT_RULES.leastRemaining.value * moulded;
  const leastFull = JOINT_RULES.fullBeyondScarf.value * moulded;
  const elsewhere = 'a place further into the decay, a shorter kind of scarf, or the whole piece renewed';
  need(
    remaining >= least,
    'at',
    `a scarf at ${at} leaves ${inches(Math.max(remaining, 0))} of ${piece.name}, where ${inches(least)} is wanted`,
    elsewhere,
  );
  need(
    full >= leastFull,
    'at',
    `a scarf of ${inches(length)} at ${at} leaves ${inches(Math.max(full, 0))} of full section in ${piece.name}, where ${inches(leastFull)} is wanted`,
    elsewhere,
  );
  return { toe: heightAt(hull, piece.side, toe), length, remaining };
}

/** How a cut at a height lies too near a joint of the other layer, in words; null where it keeps the shift. */
export function nearJoint(hull: Hull, piece: FramePiece, at: number): string | null {
  const frame = frameOf(hull, piece.frame, piece.side);
  const girth = girthAt(hull, piece.side, at);
  const past = stretchesOf(hull, frame).find(
    (one) => one.layer === otherLayer(piece.layer) && one.from <= girth && girth <= one.to,
  );
  if (!past) return null;
  const least = leastShift(past, mouldedAt(frame, at), 'third of the futtock');
  const shift = Math.min(
    past.jointBelow ? girth - past.from : Infinity,
    past.jointAbove ? past.to - girth : Infinity,
  );
  if (shift >= least - 1e-6) return null;
  return `${inches(shift)} from a joint of the other layer where ${inches(least)} is wanted`;
}

const inches = (length: Millimetres): string => `${toInches(length).toFixed(0)} in`;
