import { girthAt, mouldedAt } from '../framing/girth.js';
import { type Millimetres } from '../measure.js';
import { frameOf } from '../model/ask.js';
import { type Frame, type FramePiece, type Hull } from '../model/hull.js';
import { need } from '../refusal.js';
import { type Offsets } from './offsets.js';
import { type Surface, surfaceOf } from './surface.js';

export interface Point {
  x: Millimetres;
  y: Millimetres;
}

/**
 * A futtock's pattern at full size, lying with the chord of its outer edge along x, heel at 0, the outside of the
 * hull towards +y. `outer` and `inner` are the edges on the face where the two layers meet; `farOuter` is the outer
 * edge on the other face, from which the bevel can be held against the wood.
 */
export interface FuttockPattern {
  piece: string;
  name: string;
  sided: Millimetres;
  outer: Point[];
  inner: Point[];
  farOuter: Point[];
  /**
   * Along the outer edge from the heel, in degrees from square. Open (positive): the far face reaches further out
   * than the meeting face; closed (negative): less far.
   */
  bevels: { along: Millimetres; degrees: number }[];
  chord: Millimetres;
  /** Greatest distance of the outer edge from its chord: the curve that stock has to give. */
  sweep: Millimetres;
}

export interface PatternWish {
  piece: FramePiece;
  /** Only this part of it, in strakes, where a new joint parts it. */
  from?: number;
  to?: number;
  /** Distance of pattern points along the edge. */
  step?: Millimetres;
}

/** Whether there are measured sections at a frame, or forward and aft of it. */
export function isMeasuredAt(hull: Hull, { sections }: Offsets, frame: number): boolean {
  const at = hull.stations[frame];
  return at >= sections[0].at && at <= sections.at(-1)!.at;
}

/** Patterns of frame pieces from a measured shape. The shape has to reach over the frames asked for. */
export function futtockPatterns(hull: Hull, offsets: Offsets, wishes: PatternWish[]): FuttockPattern[] {
  const surface = surfaceOf(offsets);
  return wishes.map((wish) => {
    const frame = frameOf(hull, wish.piece.frame, wish.piece.side);
    need(
      isMeasuredAt(hull, offsets, frame.number),
      'offsets.sections',
      `frame ${frame.number} lies beyond the measured sections`,
      'sections forward and aft of every frame asked for',
    );
    return pattern(hull, surface, offsets, frame, wish);
  });
}

/** A point on the outside of a frame's face, with the outward normal in the plane of the frame. */
interface Edge extends Point {
  outX: number;
  outY: number;
  /** How far the skin moves outward per millimetre aft. */
  aftSlope: number;
}

function pattern(
  hull: Hull,
  surface: Surface,
  offsets: Offsets,
  frame: Frame,
  { piece, from = piece.from, to = piece.to, step = 100 }: PatternWish,
): FuttockPattern {
  need(
    piece.from <= from && from < to && to <= piece.to,
    'from',
    `${piece.name} has no part from ${from} to ${to}`,
    `heights from ${piece.from} to ${piece.to}`,
  );
  const { outline } = hull;
  const whole = girthAt(hull, frame.side, outline.strakes.count);
  const shareAt = (height: number): number => girthAt(hull, frame.side, height) / whole;
  const skin = offsets.surface === 'outside of planking' ? outline.strakes.thickness : 0;
  const meeting = hull.stations[frame.number];
  const direction = piece.layer === 'forward' ? -1 : 1;
  const count = Math.max(Math.ceil(((shareAt(to) - shareAt(from)) * whole) / step), 4);
  const heights = Array.from({ length: count + 1 }, (_, index) => from + ((to - from) * index) / count);
  const edges = heights.map((height) => edgeAt(surface, meeting, shareAt(height), skin));
  const far = heights.map((height) =>
    edgeAt(surface, meeting + direction * outline.frames.sided, shareAt(height), skin),
  );
  const inside = edges.map((edge, index) => {
    const depth = mouldedAt(frame, heights[index]);
    return { x: edge.x - depth * edge.outX, y: edge.y - depth * edge.outY };
  });
  const lay = layAlongChord(edges[0], edges[count], inside[Math.floor(count / 2)]);
  const outer = edges.map(lay);
  let along = 0;
  const bevels = edges.map((edge, index) => {
    const before = edges.at(index - 1);
    if (index > 0 && before) along += Math.hypot(edge.x - before.x, edge.y - before.y);
    return { along, degrees: (Math.atan(direction * edge.aftSlope) * 180) / Math.PI };
  });
  return {
    piece: piece.key,
    name: piece.name,
    sided: outline.frames.sided,
    outer,
    inner: inside.map(lay),
    farOuter: far.map(lay),
    bevels,
    chord: outer[count].x,
    sweep: Math.max(...outer.map((point) => Math.abs(point.y))),
  };
}

/** x is breadth, y is height. The planking's thickness is measured square to the skin, so more of it on a slant. */
function edgeAt(surface: Surface, aft: Millimetres, share: number, skin: Millimetres): Edge {
  const small = 1e-4;
  const here = surface.at(aft, share);
  const [low, high] = [
    surface.at(aft, Math.max(share - small, 0)),
    surface.at(aft, Math.min(share + small, 1)),
  ];
  const [upX, upY] = [high.breadth - low.breadth, high.height - low.height];
  const length = Math.hypot(upX, upY);
  // Up the side and to the right of it lies outboard.
  const [outX, outY] = [upY / length, -upX / length];
  const aftSlope = here.breadthAft * outX + here.heightAft * outY;
  const deduct = skin * Math.hypot(1, aftSlope);
  return { x: here.breadth - deduct * outX, y: here.height - deduct * outY, outX, outY, aftSlope };
}

/** Turns section coordinates so that the chord lies along x and the inside of the hull below it. */
function layAlongChord(heel: Point, head: Point, inside: Point): (point: Point) => Point {
  const length = Math.hypot(head.x - heel.x, head.y - heel.y);
  const [c, s] = [(head.x - heel.x) / length, (head.y - heel.y) / length];
  const turned = (point: Point): Point => ({
    x: (point.x - heel.x) * c + (point.y - heel.y) * s,
    y: -(point.x - heel.x) * s + (point.y - heel.y) * c,
  });
  const flip = turned(inside).y > 0 ? -1 : 1;
  return (point) => {
    const { x, y } = turned(point);
    return { x, y: flip * y };
  };
}

/** The pattern's outline as one closed line: up the outer edge, back down the inner. */
export const outlineOf = ({ outer, inner }: FuttockPattern): Point[] => [...outer, ...[...inner].reverse()];
