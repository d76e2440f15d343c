import { fasteningsOf } from '../model/ask.js';
import { type Hull } from '../model/hull.js';
import { frameKey, frameName } from '../model/names.js';
import { type Counts } from '../methods/method.js';
import { type ScopedElement, TOUCHING_NOTHING } from '../methods/scope.js';
import { boltsToFree, type Drawn, drawnParts, endJoints, heldBy } from './drawn.js';
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
  const frames = [...new Set(parts.map(({ piece }) => frameKey(piece.frame, piece.side)))];
  const renewals = frames.map((key) => {
    const own = parts.filter(({ piece }) => frameKey(piece.frame, piece.side) === key);
    const { frame, side } = own[0].piece;
    const held = [...heldBy(hull, own).values()];
    const counted = (list: typeof held): number => list.reduce((sum, { count }) => sum + count, 0);
    const cut = held.filter(({ plank }) => !off.has(plank.key));
    const written = survey.frames
      .filter((one) => one.side === side && one.frames[0] <= frame && frame <= one.frames[1])
      .reduce<Counts>((all, one) => ({ ...all, ...one.counts }), {});
    return {
      key,
      name: frameName(frame, side),
      kind: 'frame' as const,
      method: 'renew-frame-pieces',
      side,
      frame,
      strake: null,
      counts: {
        pieces: own.length,
        bolts: boltsToFree(hull, own).length,
        stubs: counted(cut),
        plugs: counted(held.filter(({ plank }) => plank.skin === 'planking')),
        'new nails': counted(cut),
        'new joints': endJoints(hull, own).filter((joint) => !joint.original).length,
        ...written,
      },
      touching: TOUCHING_NOTHING,
    };
  });
  return [...renewals, ...sisterElements(survey, new Set(frames))];
}

const sisterElements = (survey: Survey, renewed: Set<string>): ScopedElement[] =>
  survey.frames
    .filter((finding) => finding.finding === 'sister')
    .flatMap(({ frames: [first, last], side, counts }) =>
      Array.from({ length: last - first + 1 }, (_, index) => first + index)
        .filter((frame) => !renewed.has(frameKey(frame, side)))
        .map((frame) => ({
          key: frameKey(frame, side),
          name: frameName(frame, side),
          kind: 'frame' as const,
          method: 'sister-frame',
          side,
          frame,
          strake: null,
          counts: { pieces: 1, ...counts },
          touching: TOUCHING_NOTHING,
        })),
    );

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
      touching: TOUCHING_NOTHING,
    };
  });
