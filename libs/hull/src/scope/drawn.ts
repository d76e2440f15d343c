import { fasteningsThrough, frameOf, pieceOf } from '../model/ask.js';
import { type Bolt, type FramePiece, type Hull, type Plank } from '../model/hull.js';
import { otherSide, pieceKey } from '../model/names.js';
import { need } from '../refusal.js';

/** A frame piece, or the part of it beyond a new joint, that is to come out. Heights in strakes. */
export interface Drawn {
  piece: string;
  from?: number;
  to?: number;
  /** True where it meets the wood that stays in a scarf. */
  scarfed?: boolean;
}

export interface DrawnPart {
  piece: FramePiece;
  from: number;
  to: number;
  scarfed?: boolean;
}

/** One end of a part that meets wood which stays: it has to be seen and worked at. */
export interface EndJoint {
  piece: FramePiece;
  at: number;
  /** True where the old joint is used, false where a new one is cut. */
  original: boolean;
  /** True where the new one is a scarf. */
  scarfed: boolean;
}

/** A floor timber lies across the keel: naming it on one side draws it on both. */
export function drawnParts(hull: Hull, drawn: Drawn[]): DrawnPart[] {
  const parts = drawn.flatMap((one) => {
    const piece = pieceOf(hull, one.piece);
    const from = one.from ?? piece.from;
    const to = one.to ?? piece.to;
    need(
      from >= piece.from && from < to && to <= piece.to,
      'drawn',
      `${piece.name} has no part from ${from} to ${to}`,
      `a part between ${piece.from} and ${piece.to}`,
    );
    if (piece.number !== 0) return [{ piece, from, to, scarfed: one.scarfed === true }];
    const twin = pieceOf(hull, pieceKey(piece.frame, otherSide(piece.side), 0));
    return [
      { piece, from, to },
      { piece: twin, from: twin.from, to: twin.to },
    ];
  });
  return [...new Map(parts.map((part) => [part.piece.key, part])).values()];
}

export const endJoints = (hull: Hull, parts: DrawnPart[]): EndJoint[] => {
  const gone = new Set(parts.map((part) => part.piece.key));
  return parts.flatMap(({ piece, from, to, scarfed = false }) => {
    const frame = frameOf(hull, piece.frame, piece.side);
    const ends = [
      { at: from, original: from === piece.from, joint: frame.joints.find((one) => one.above === piece.key) },
      { at: to, original: to === piece.to, joint: frame.joints.find((one) => one.below === piece.key) },
    ];
    return ends
      .filter(({ original, joint }) => {
        if (!original) return true;
        return joint !== undefined && !(gone.has(joint.above) && gone.has(joint.below));
      })
      .map(({ at, original }) => ({ piece, at, original, scarfed: !original && scarfed }));
  });
};

/** Bolts that tie what comes out to what stays. Bolts between two pieces that both come out stay in them. */
export const boltsToFree = (hull: Hull, parts: DrawnPart[]): Bolt[] => {
  const out = new Map(parts.map((part) => [part.piece.key, part]));
  const gone = (key: string, at: number): boolean => {
    const part = out.get(key);
    return part !== undefined && at >= part.from && at <= part.to;
  };
  return [...new Set(parts.map(({ piece }) => frameOf(hull, piece.frame, piece.side)))]
    .flatMap((frame) => frame.bolts)
    .filter(({ holds: [one, other], at }) => gone(one, at) !== gone(other, at));
};

/** How many fastenings each plank has in what comes out, by plank key. */
export function heldBy(
  hull: Hull,
  parts: DrawnPart[],
): Map<string, { plank: Plank; count: number; frames: number[] }> {
  const held = new Map<string, { plank: Plank; count: number; frames: number[] }>();
  for (const part of parts)
    for (const { plank, count } of fasteningsThrough(hull, part.piece)) {
      const middle = (plank.from + plank.to) / 2;
      if (middle < part.from || middle > part.to) continue;
      const one = held.get(plank.key) ?? { plank, count: 0, frames: [] };
      one.count += count;
      if (!one.frames.includes(part.piece.frame)) one.frames.push(part.piece.frame);
      held.set(plank.key, one);
    }
  return held;
}
