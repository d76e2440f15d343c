import { type Millimetres } from '../measure.js';
import { type Plank } from './hull.js';

/** Middle of the bay behind a frame; at the ends of the vessel, the first and last frame themselves. */
export function bayMiddle(stations: Millimetres[], bay: number): Millimetres {
  const last = stations.length - 1;
  const [fore, aft] = [Math.min(Math.max(bay, 1), last), Math.min(Math.max(bay + 1, 1), last)];
  return (stations[fore] + stations[aft]) / 2;
}

/** From butt to butt over these frames. */
export const lengthOver = (
  stations: Millimetres[],
  { firstFrame, lastFrame }: Pick<Plank, 'firstFrame' | 'lastFrame'>,
): Millimetres => bayMiddle(stations, lastFrame) - bayMiddle(stations, firstFrame - 1);
