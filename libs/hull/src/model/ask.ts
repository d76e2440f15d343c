import { need } from '../refusal.js';
import { strakeExceptions } from './exceptions.js';
import { pieceAt } from './build-frame.js';
import { type Crossing, type Frame, type FramePiece, type Hull, type Plank } from './hull.js';
import { frameKey, type Layer, type Side, type Skin } from './names.js';
import { nailsByWidth } from './width-rule.js';

interface Index {
  frames: Map<string, Frame>;
  pieces: Map<string, FramePiece>;
  planks: Map<string, Plank>;
  /** By skin, side and frame; filled as it is asked for. */
  over: Map<string, readonly Plank[]>;
}

const indices = new WeakMap<Hull, Index>();

/** Where everything of a hull is: a scope asks for single pieces and planks thousands of times. */
function indexOf(hull: Hull): Index {
  const known = indices.get(hull);
  if (known) return known;
  const byKey = <One extends { key: string }>(all: One[]): Map<string, One> =>
    new Map(all.map((one) => [one.key, one]));
  const index = {
    frames: byKey(hull.frames),
    pieces: byKey(hull.frames.flatMap((frame) => frame.pieces)),
    planks: byKey(hull.planks),
    over: new Map<string, readonly Plank[]>(),
  };
  indices.set(hull, index);
  return index;
}

export function frameOf(hull: Hull, number: number, side: Side): Frame {
  const frame = indexOf(hull).frames.get(frameKey(number, side));
  need(frame !== undefined, 'frame', `there is no frame ${number}`, `1 to ${hull.outline.frames.count}`);
  return frame;
}

export function plankOf(hull: Hull, key: string): Plank {
  const plank = indexOf(hull).planks.get(key);
  need(plank !== undefined, 'plank', `there is no plank ${key}`, 'a key of this hull');
  return plank;
}

/** All planks of a skin over one frame, from the lowest strake up. */
export function planksOver(hull: Hull, frame: number, side: Side, skin: Skin = 'planking'): Plank[] {
  const { head } = frameOf(hull, frame, side);
  const { over } = indexOf(hull);
  const key = `${skin} ${frameKey(frame, side)}`;
  const known = over.get(key);
  if (known) return [...known];
  const found = hull.planks
    .filter(
      (plank) =>
        plank.skin === skin &&
        plank.side === side &&
        plank.firstFrame <= frame &&
        frame <= plank.lastFrame &&
        plank.from < head,
    )
    .sort((a, b) => a.strake - b.strake);
  over.set(key, found);
  return [...found];
}

/** Planks over a stretch of one frame between two heights. */
export const planksBetween = (
  hull: Hull,
  frame: number,
  side: Side,
  skin: Skin,
  from: number,
  to: number,
): Plank[] => planksOver(hull, frame, side, skin).filter((plank) => plank.from < to && plank.to > from);

export const framesUnder = (hull: Hull, plank: Plank): Frame[] =>
  hull.frames.filter(
    (frame) =>
      frame.side === plank.side &&
      frame.number >= plank.firstFrame &&
      frame.number <= plank.lastFrame &&
      plank.from < frame.head,
  );

/** Fastenings of a plank at a frame it crosses: one half in each layer, an odd one forward. */
export function crossingOf(hull: Hull, plank: Plank, frame: Frame): Crossing {
  const count = nailsAt(hull, plank, frame.number);
  const aft = Math.floor(count / 2);
  const middle = (plank.from + plank.to) / 2;
  const piece = (layer: Layer): FramePiece | null => pieceAt(frame.pieces, layer, middle);
  return {
    plank,
    frame,
    fastenings: { forward: count - aft, aft },
    pieces: { forward: piece('forward'), aft: piece('aft') },
  };
}

function nailsAt(hull: Hull, plank: Plank, frame: number): number {
  if (plank.skin === 'ceiling') return hull.outline.ceiling.nails;
  const special = strakeExceptions(hull.outline, plank.strake, plank.side).findLast(
    (one) => one.nailsAtFrame !== undefined,
  );
  return special?.nailsAtFrame ?? nailsByWidth(hull.outline.nailing, plank.width, frame);
}

export const crossingsOf = (hull: Hull, plank: Plank): Crossing[] =>
  framesUnder(hull, plank).map((frame) => crossingOf(hull, plank, frame));

export const fasteningsIn = (crossing: Crossing): number =>
  crossing.fastenings.forward + crossing.fastenings.aft;

export const fasteningsOf = (hull: Hull, plank: Plank): number =>
  crossingsOf(hull, plank).reduce((sum, crossing) => sum + fasteningsIn(crossing), 0);

/** Crossings whose fastenings go into a piece, with how many of them do, planking first. */
export function fasteningsThrough(hull: Hull, piece: FramePiece): { plank: Plank; count: number }[] {
  const frame = frameOf(hull, piece.frame, piece.side);
  return (['planking', 'ceiling'] as const).flatMap((skin) =>
    planksOver(hull, piece.frame, piece.side, skin).flatMap((plank) => {
      const crossing = crossingOf(hull, plank, frame);
      if (crossing.pieces[piece.layer]?.key !== piece.key) return [];
      return [{ plank, count: crossing.fastenings[piece.layer] }];
    }),
  );
}

/** A single hole, for the hole book: which plank, frame, layer, and which of the fastenings there. */
export interface Hole {
  key: string;
  name: string;
  plank: string;
  frame: string;
  layer: Layer;
}

export const holesAt = ({ plank, frame, fastenings }: Crossing): Hole[] =>
  (['forward', 'aft'] as const).flatMap((layer) =>
    Array.from({ length: fastenings[layer] }, (_, index) => ({
      key: `${plank.key}-frame-${frame.number}-${layer}-${index + 1}`,
      name: `${plank.name}, frame ${frame.number}, ${layer} half, nail ${index + 1} from below`,
      plank: plank.key,
      frame: frameKey(frame.number, frame.side),
      layer,
    })),
  );

export function pieceOf(hull: Hull, key: string): FramePiece {
  const piece = indexOf(hull).pieces.get(key);
  need(piece !== undefined, 'piece', `there is no piece ${key}`, 'a key of this hull');
  return piece;
}
