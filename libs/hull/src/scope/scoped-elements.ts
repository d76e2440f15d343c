import { fasteningsOf, pieceOf, planksBetween, planksOver } from '../model/ask.js';
import { type FramePiece, type Hull } from '../model/hull.js';
import { frameKey, frameName, type Side, type Skin } from '../model/names.js';
import { type Counts } from '../methods/method.js';
import { type ScopedElement, TOUCHING_NOTHING } from '../methods/scope.js';
import { boltsToFree, type Drawn, type DrawnPart, drawnParts, endJoints, heldBy } from './drawn.js';
import { type MinimumOpening } from './minimum-opening.js';
import { plankSquareFeet } from './plank-hours.js';
import { type Survey } from './survey.js';

/** Frames out of which pieces are drawn, and frames that get a sister, with what is to be counted on each. */
export function frameElements(
  hull: Hull,
  survey: Survey,
  drawn: Drawn[],
  opening: MinimumOpening,
): ScopedElement[] {
  const off = new Set(opening.off.map((plank) => plank.key));
  const parts = drawnParts(hull, drawn);
  const named = drawn.map((one) => pieceOf(hull, one.piece)).filter((piece) => piece.number === 0);
  const owners = parts.map((part) => ownerOf(part, named));
  const keys = [...new Set(owners)];
  const bolts = boltsToFree(hull, parts);
  const joints = endJoints(hull, parts);
  const renewals = keys.map((key) => {
    const own = parts.filter((_, index) => owners[index] === key);
    const pieces = new Set(own.map(({ piece }) => piece.key));
    const { number: frame, side } = hull.frames.find((one) => one.key === key)!;
    const held = [...heldBy(hull, own).values()];
    const counted = (list: typeof held): number => list.reduce((sum, { count }) => sum + count, 0);
    const cut = held.filter(({ plank }) => !off.has(plank.key));
    const across = own.filter(({ piece }) => piece.side !== side);
    return {
      ...frameElement(hull, frame, side, off, across),
      method: 'renew-frame-pieces',
      counts: {
        // The two halves of a floor timber are one piece.
        pieces: own.length - across.length,
        bolts: bolts.filter(({ holds }) => holds.some((piece) => pieces.has(piece))).length,
        stubs: counted(cut),
        plugs: counted(held.filter(({ plank }) => plank.skin === 'planking')),
        'new nails': counted(cut),
        'new joints': joints.filter(
          (joint) => !joint.original && !joint.scarfed && pieces.has(joint.piece.key),
        ).length,
        scarfs: joints.filter((joint) => joint.scarfed && pieces.has(joint.piece.key)).length,
        ...writtenCounts(survey, frame, side),
      },
      alsoOpens: across
        .map(({ piece }) => frameKey(piece.frame, piece.side))
        .filter((other) => !keys.includes(other)),
    };
  });
  return [...renewals, ...sisterElements(hull, survey, off, new Set(keys))];
}

/** The element that a part belongs to: its frame on its side; a whole floor timber goes with the half named first. */
function ownerOf({ piece }: DrawnPart, namedFloors: FramePiece[]): string {
  if (piece.number !== 0) return frameKey(piece.frame, piece.side);
  const named = namedFloors.find((one) => one.frame === piece.frame)!;
  return frameKey(named.frame, named.side);
}

const writtenCounts = (survey: Survey, frame: number, side: Side): Counts =>
  survey.frames
    .filter((one) => one.side === side && one.frames[0] <= frame && frame <= one.frames[1])
    .reduce<Counts>((all, one) => ({ ...all, ...one.counts }), {});

/** A frame with the scoped planks over it, and those over a floor timber's other half. */
function frameElement(
  hull: Hull,
  frame: number,
  side: Side,
  off: Set<string>,
  across: DrawnPart[],
): Omit<ScopedElement, 'method' | 'counts' | 'alsoOpens'> {
  const over = (skin: Skin): string[] =>
    [
      ...planksOver(hull, frame, side, skin),
      ...across.flatMap(({ piece, from, to }) =>
        planksBetween(hull, piece.frame, piece.side, skin, from, to),
      ),
    ]
      .map((plank) => plank.key)
      .filter((key) => off.has(key));
  return {
    key: frameKey(frame, side),
    name: frameName(frame, side),
    kind: 'frame',
    side,
    frame,
    strake: null,
    touching: { ...TOUCHING_NOTHING, planksOver: over('planking'), ceilingOver: over('ceiling') },
  };
}

/** One sister to a frame, however many of its pieces are damaged. */
function sisterElements(hull: Hull, survey: Survey, off: Set<string>, renewed: Set<string>): ScopedElement[] {
  const sisters = new Map<string, ScopedElement>();
  for (const { finding, frames, side, counts } of survey.frames) {
    if (finding !== 'sister') continue;
    for (let frame = frames[0]; frame <= frames[1]; frame += 1) {
      const key = frameKey(frame, side);
      if (renewed.has(key)) continue;
      const known = sisters.get(key)?.counts ?? { pieces: 1 };
      const element = frameElement(hull, frame, side, off, []);
      sisters.set(key, {
        ...element,
        method: 'sister-frame',
        counts: { ...known, ...counts },
        alsoOpens: [],
      });
    }
  }
  return [...sisters.values()];
}

/** Planks and ceiling that come off, each with its own fastenings and seams. */
export const plankElements = (
  hull: Hull,
  opening: MinimumOpening,
  renewed: Set<string>,
  inspectionStrake: string | null,
): ScopedElement[] =>
  opening.off.map((plank) => {
    const planking = plank.skin === 'planking';
    const nails = fasteningsOf(hull, plank);
    const ceilingMethod =
      plank.key === inspectionStrake ? 'ceiling-inspection-strake' : 'ceiling-off-and-back';
    return {
      key: plank.key,
      name: plank.name,
      kind: planking ? ('plank' as const) : ('ceiling' as const),
      method: planking ? (renewed.has(plank.key) ? 'renew-plank' : 'plank-off-and-back') : ceilingMethod,
      side: plank.side,
      frame: null,
      strake: plank.strake,
      counts: { nails, 'square feet': Math.round(plankSquareFeet(hull, plank)) },
      alsoOpens: [],
      touching: TOUCHING_NOTHING,
    };
  });
