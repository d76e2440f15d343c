import { type Millimetres, toInches } from '../measure.js';
import { type Frame, type Hull } from '../model/hull.js';
import { type Layer, otherLayer } from '../model/names.js';
import { girthAt, mouldedAt } from './girth.js';
import { JOINT_RULES } from './joint-rules.js';

export type ShiftReading = 'third of the futtock' | 'moulded depth';

export interface ShiftFault {
  says: string;
  layer: Layer;
  at: number;
  shift: Millimetres;
  least: Millimetres;
}

/** A stretch of a layer between two ends; `joint` tells whether an end meets another piece. */
export interface Stretch {
  layer: Layer;
  from: Millimetres;
  to: Millimetres;
  jointBelow: boolean;
  jointAbove: boolean;
}

/** Pieces of a frame as stretches along the girth. */
export const stretchesOf = (hull: Hull, frame: Frame): Stretch[] =>
  frame.pieces.map((piece) => ({
    layer: piece.layer,
    from: girthAt(hull, frame.side, piece.from),
    to: girthAt(hull, frame.side, piece.to),
    jointBelow: piece.from > 0,
    jointAbove: piece.to < frame.head,
  }));

/** Joints of a frame that lie too near a joint of the other layer. */
export function checkJointShift(
  hull: Hull,
  frame: Frame,
  reading: ShiftReading = 'third of the futtock',
): ShiftFault[] {
  const stretches = stretchesOf(hull, frame);
  return frame.joints.flatMap((joint) => {
    const at = girthAt(hull, frame.side, joint.at);
    const past = stretches.find(
      (one) => one.layer === otherLayer(joint.layer) && one.from <= at && at < one.to,
    );
    if (!past) return [];
    const least = leastShift(past, mouldedAt(frame, joint.at), reading);
    const shift = Math.min(
      past.jointBelow ? at - past.from : Infinity,
      past.jointAbove ? past.to - at : Infinity,
    );
    if (shift >= least - 1e-6) return [];
    const says = `${joint.name} is ${toInches(shift).toFixed(1)} in from a joint of the other layer where ${toInches(least).toFixed(1)} in is wanted`;
    return [{ says, layer: joint.layer, at: joint.at, shift, least }];
  });
}

export const leastShift = (past: Stretch, moulded: Millimetres, reading: ShiftReading): Millimetres =>
  reading === 'moulded depth'
    ? JOINT_RULES.shiftByDepth.value * moulded
    : JOINT_RULES.shift.value * (past.to - past.from);
