import { fasteningsOf } from '../model/ask.js';
import { type Hull, type Plank } from '../model/hull.js';
import { type Drawn, drawnParts, heldBy } from './drawn.js';
import { plankFeet } from './plank-hours.js';
import { type MinimumOpening } from './minimum-opening.js';

/** Counts that follow from what is drawn and what is taken off for it. */
export interface ScopeCounts {
  planks: number;
  ceilingPlanks: number;
  plankNails: number;
  ceilingNails: number;
  /** Fastenings cut behind planks that stay: a stub each to punch, and a new nail. */
  stubs: number;
  bolts: number;
  /** Old holes of the planking, kept or put back, over new wood. */
  plugs: number;
  seamFeet: number;
}

export function scopeCounts(hull: Hull, drawn: Drawn[], opening: MinimumOpening): ScopeCounts {
  const planking = opening.off.filter((plank) => plank.skin === 'planking');
  const ceiling = opening.off.filter((plank) => plank.skin === 'ceiling');
  const nails = (planks: Plank[]): number =>
    planks.reduce((sum, plank) => sum + fasteningsOf(hull, plank), 0);
  const held = [...heldBy(hull, drawnParts(hull, drawn)).values()];
  return {
    planks: planking.length,
    ceilingPlanks: ceiling.length,
    plankNails: nails(planking),
    ceilingNails: nails(ceiling),
    stubs: opening.cut.reduce((sum, one) => sum + one.count, 0),
    bolts: opening.bolts.length,
    plugs: held.filter(({ plank }) => plank.skin === 'planking').reduce((sum, { count }) => sum + count, 0),
    seamFeet: seamFeet(hull, planking),
  };
}

/** Length of all seams along the edges of these planks, a seam between two of them counted once. */
export function seamFeet(hull: Hull, planks: Plank[]): number {
  const keys = new Set(planks.map((plank) => plank.key));
  const edges = planks.reduce((sum, plank) => sum + 2 * plankFeet(hull, plank), 0);
  let shared = 0;
  for (const plank of planks)
    for (const above of planks) {
      if (above.side !== plank.side || above.strake !== plank.strake + 1 || !keys.has(above.key)) continue;
      const first = Math.max(plank.firstFrame, above.firstFrame);
      const last = Math.min(plank.lastFrame, above.lastFrame);
      if (first <= last) shared += plankFeet(hull, { ...plank, firstFrame: first, lastFrame: last });
    }
  return edges - shared;
}
