import { inches, type Millimetres, toInches } from '../measure.js';
import { frameOf } from '../model/ask.js';
import { type FrameJoint, type FramePiece, type Hull } from '../model/hull.js';
import { otherLayer } from '../model/names.js';
import { need } from '../refusal.js';
import { girthAt, heightAt, mouldedAt } from './girth.js';
import { JOINT_RULES } from './joint-rules.js';
import { leastShift, type ShiftReading, type Stretch, stretchesOf } from './joint-shift.js';

/** Where a decayed piece is parted from what stays, at its lower or its upper end. */
export type Parting =
  | { kind: 'end of the frame' }
  | { kind: 'original joint'; joint: FrameJoint; away: Millimetres }
  /** A departure from how she was built: it goes on record with its place and reason and who decided. */
  | { kind: 'new joint'; at: number; girth: Millimetres; remaining: Millimetres; departure: string }
  /** No cut keeps the rules: the piece comes out whole, to a joint further away. */
  | { kind: 'whole piece'; joint: FrameJoint; why: string };

export interface JointSettings {
  reading?: ShiftReading;
  /** Into sound wood. */
  margin?: Millimetres;
  /** How far past the decay an original joint is still taken. */
  reach?: Millimetres;
}

/**
 * Partings of a piece that is decayed between two heights, in strakes. The cut nearest the decay that keeps the
 * joint shift of every joint in both layers and leaves enough of the old piece; found from the interval that each
 * rule leaves, not by trying places.
 */
export function partingsOf(
  hull: Hull,
  piece: FramePiece,
  decay: { from: number; to: number },
  settings: JointSettings = {},
): { lower: Parting; upper: Parting } {
  need(
    decay.from < decay.to && decay.from < piece.to && decay.to > piece.from,
    'decay',
    `decay from ${decay.from} to ${decay.to} does not touch ${piece.name}`,
    `a stretch that overlaps ${piece.from} to ${piece.to}`,
  );
  return {
    lower: parting(hull, piece, decay.from, 1, settings),
    upper: parting(hull, piece, decay.to, -1, settings),
  };
}

/** `way` 1 looks down from the decay, -1 up; upwards is the same problem mirrored at the rabbet. */
function parting(hull: Hull, piece: FramePiece, edge: number, way: 1 | -1, settings: JointSettings): Parting {
  const frame = frameOf(hull, piece.frame, piece.side);
  const joint = frame.joints.find((one) => (way === 1 ? one.above : one.below) === piece.key);
  const end = girthAt(hull, piece.side, way === 1 ? piece.from : piece.to);
  const bad = girthAt(hull, piece.side, edge);
  const away = way * (bad - end);
  if (joint === undefined && away <= 0) return { kind: 'end of the frame' };
  if (joint && away <= (settings.reach ?? inches(JOINT_RULES.withinReach.value)))
    return { kind: 'original joint', joint, away: Math.max(away, 0) };
  const moulded = mouldedAt(frame, edge);
  const mirror = (stretch: Stretch): Stretch =>
    way === 1
      ? stretch
      : {
          layer: stretch.layer,
          from: -stretch.to,
          to: -stretch.from,
          jointBelow: stretch.jointAbove,
          jointAbove: stretch.jointBelow,
        };
  const stretches = stretchesOf(hull, frame).map(mirror);
  const own = mirror(stretchOf(hull, piece, frame.head));
  const girth = nearestCut({
    own,
    past: stretches.filter((one) => one.layer === otherLayer(piece.layer)),
    highest: way * bad - (settings.margin ?? inches(JOINT_RULES.intoSoundWood.value)),
    lowest: own.from + JOINT_RULES.leastRemaining.value * moulded,
    // By depth the greatest counts, so that the shift holds wherever along the taper the joints lie.
    moulded: Math.max(frame.moulded.heel, frame.moulded.head),
    reading: settings.reading ?? 'third of the futtock',
  });
  if (girth !== null) return newJoint(hull, piece, way * girth, girth - own.from);
  if (joint)
    return { kind: 'whole piece', joint, why: 'no cut in it keeps the joint shift and leaves enough' };
  return { kind: 'end of the frame' };
}

function stretchOf(hull: Hull, piece: FramePiece, head: number): Stretch {
  return {
    layer: piece.layer,
    from: girthAt(hull, piece.side, piece.from),
    to: girthAt(hull, piece.side, piece.to),
    jointBelow: piece.from > 0,
    jointAbove: piece.to < head,
  };
}

function newJoint(hull: Hull, piece: FramePiece, girth: Millimetres, remaining: Millimetres): Parting {
  const at = heightAt(hull, piece.side, girth);
  return {
    kind: 'new joint',
    at,
    girth,
    remaining,
    departure: `new joint in ${piece.name}, ${toInches(girth).toFixed(0)} in along the frame from the rabbet; ${toInches(remaining).toFixed(0)} in of the old piece stay`,
  };
}

/**
 * Highest place c below the decay, in [lowest, highest], such that
 * - c is shifted from both joints of the piece that runs past it in the other layer;
 * - every joint of the other layer is shifted from both ends of the old part [from, c] and the new part [c, to].
 * By thirds each of these is linear in c: a joint j in the old part asks 3 (j - from) >= c - from and
 * 3 (c - j) >= c - from; one in the new part asks 3 (j - c) >= to - c and 3 (to - j) >= to - c.
 */
function nearestCut(ask: {
  own: Stretch;
  past: Stretch[];
  highest: Millimetres;
  lowest: Millimetres;
  moulded: Millimetres;
  reading: ShiftReading;
}): Millimetres | null {
  const { own, past, reading } = ask;
  const joints = past.filter((one) => one.jointAbove).map((one) => one.to);
  const fixed = reading === 'moulded depth' ? JOINT_RULES.shiftByDepth.value * ask.moulded : null;
  let best: Millimetres | null = null;
  for (const beside of past) {
    const shift = leastShift(beside, ask.moulded, reading);
    let low = Math.max(ask.lowest, beside.jointBelow ? beside.from + shift : beside.from);
    let high = Math.min(ask.highest, beside.jointAbove ? beside.to - shift : beside.to);
    for (const joint of joints) {
      if (joint > own.from && joint <= beside.from) {
        low = Math.max(low, fixed === null ? (3 * joint - own.from) / 2 : joint + fixed);
        if (own.jointBelow && fixed === null) high = Math.min(high, 3 * joint - 2 * own.from);
      }
      if (joint < own.to && joint >= beside.to) {
        high = Math.min(high, fixed === null ? (3 * joint - own.to) / 2 : joint - fixed);
        if (own.jointAbove && fixed === null) low = Math.max(low, 3 * joint - 2 * own.to);
      }
    }
    if (low <= high + 1e-9 && (best === null || high > best)) best = high;
  }
  return best;
}
