import { frameExceptions, lastOf } from './exceptions.js';
import { type Bolt, type Frame, type FrameJoint, type FramePiece } from './hull.js';
import { frameKey, frameName, type Layer, otherLayer, pieceKey, pieceWord, type Side } from './names.js';
import { type HullOutline } from './outline.js';

/** A frame with its pieces counted outwards from the floor, the joints between them and the bolts through them. */
export function buildFrame(outline: HullOutline, number: number, side: Side): Frame {
  const usual = outline.frames;
  const special = frameExceptions(outline, number, side);
  const head = lastOf(special, 'head', usual.head);
  const joints = lastOf(special, 'joints', usual.joints);
  const pieces: FramePiece[] = [];
  const met: FrameJoint[] = [];
  for (const layer of [usual.floorLayer, otherLayer(usual.floorLayer)]) {
    const laid = piecesOf(number, side, layer, [0, ...joints[layer], head], layer === usual.floorLayer);
    pieces.push(...laid);
    laid.slice(1).forEach((above, index) => met.push(jointBetween(laid[index], above)));
  }
  const bolts = [
    ...met.flatMap((joint) => jointBolts(joint, pieces, usual.boltsEachSideOfJoint)),
    ...outline.members.flatMap((member) => memberBolts(member, number, side, pieces)),
  ];
  return {
    key: frameKey(number, side),
    name: frameName(number, side),
    number,
    side,
    head,
    moulded: lastOf(special, 'moulded', usual.moulded),
    pieces: pieces.sort((a, b) => a.number - b.number),
    joints: met.sort((a, b) => a.at - b.at),
    bolts,
  };
}

function piecesOf(frame: number, side: Side, layer: Layer, ends: number[], hasFloor: boolean): FramePiece[] {
  return ends.slice(1).map((to, index) => {
    const number = 2 * index + (hasFloor ? 0 : 1);
    return {
      key: pieceKey(frame, side, number),
      name: `${frameName(frame, side)} ${pieceWord(number)}`,
      frame,
      side,
      layer,
      number,
      from: ends[index],
      to,
    };
  });
}

function jointBetween(below: FramePiece, above: FramePiece): FrameJoint {
  return {
    key: `${above.key}-heel-joint`,
    name: `joint of ${above.name} with ${pieceWord(below.number)}`,
    frame: above.frame,
    side: above.side,
    layer: above.layer,
    at: above.from,
    below: below.key,
    above: above.key,
  };
}

/** The piece of a layer at a height; at a joint, the upper one. */
export const pieceAt = (pieces: FramePiece[], layer: Layer, at: number): FramePiece | null =>
  pieces.findLast((piece) => piece.layer === layer && piece.from <= at && at <= piece.to) ?? null;

/** Both pieces of a joint are bolted to the piece of the other layer that runs past it. */
function jointBolts(joint: FrameJoint, pieces: FramePiece[], each: number): Bolt[] {
  const past = pieceAt(pieces, otherLayer(joint.layer), joint.at);
  if (past === null) return [];
  return [joint.below, joint.above].flatMap((end, which) =>
    Array.from({ length: each }, (_, index) => ({
      key: `${joint.key}-bolt-${which === 0 ? 'below' : 'above'}-${index + 1}`,
      frame: joint.frame,
      side: joint.side,
      at: joint.at,
      kind: 'joint' as const,
      holds: [end, past.key] as [string, string],
    })),
  );
}

/** Bolts of a fore-and-aft timber are shared out over the two layers, the forward one first. */
function memberBolts(
  member: HullOutline['members'][number],
  frame: number,
  side: Side,
  pieces: FramePiece[],
): Bolt[] {
  const layers: Layer[] = ['forward', 'aft'];
  return Array.from({ length: member.boltsAtFrame }, (_, index) => index).flatMap((index) => {
    const piece = pieceAt(pieces, layers[index % 2], member.at);
    if (piece === null) return [];
    return [
      {
        key: `${frameKey(frame, side)}-${member.name.replaceAll(' ', '-')}-bolt-${index + 1}`,
        frame,
        side,
        at: member.at,
        kind: 'member' as const,
        holds: [piece.key, member.name] as [string, string],
      },
    ];
  });
}
