import { buildHull, fasteningsOf, shellMap } from '@ribband/hull';
import { readOutline } from '../methods/work-change.js';
import { refusingAs } from './hull-refusals.js';
import type { OutlineDrawing } from './outline-drawing.types.js';

/** What an outline makes, drawn. @throws RefusalError BAD_INPUT naming the field that does not hold */
export function drawOutline(value: unknown): OutlineDrawing {
  const outline = readOutline(value);
  return refusingAs('outline', () => {
    const hull = buildHull(outline);
    const shell = hull.planks.filter((plank) => plank.skin === 'planking');
    return {
      sides: (['starboard', 'port'] as const).map((side) => shellMap(hull, side)),
      planks: shell.length,
      ceilingPlanks: hull.planks.length - shell.length,
      framePieces: hull.frames.reduce((sum, frame) => sum + frame.pieces.length, 0),
      nails: shell.reduce((sum, plank) => sum + fasteningsOf(hull, plank), 0),
    };
  });
}
