import { toFeet } from '../measure.js';
import { likelyMinutes, rateMinutes } from '../methods/likely.js';
import { type MethodBook } from '../methods/method.js';
import { fasteningsOf } from '../model/ask.js';
import { lengthOver } from '../model/bays.js';
import { type Hull, type Plank } from '../model/hull.js';

/** From butt to butt along the vessel. */
export const plankFeet = (hull: Hull, plank: Plank): number => toFeet(lengthOver(hull.stations, plank));

export const plankSquareFeet = (hull: Hull, plank: Plank): number =>
  plankFeet(hull, plank) * toFeet(plank.width);

/** Person-minutes to take a plank off and put it back, by the book: its own method, and its seams outside. */
export function offAndBack(hull: Hull, book: MethodBook, plank: Plank): number {
  const counts = { nails: fasteningsOf(hull, plank), 'square feet': plankSquareFeet(hull, plank) };
  if (plank.skin === 'ceiling') return likelyMinutes(book, 'ceiling-off-and-back', counts);
  const seams = 2 * plankFeet(hull, plank);
  return (
    likelyMinutes(book, 'plank-off-and-back', counts) +
    rateMinutes(book, 'seams-caulked', seams) +
    rateMinutes(book, 'seams-paid', seams)
  );
}

/** Person-minutes to free so many fastenings of a plank that stays, and to make good. */
export function cutInPlace(book: MethodBook, skin: Plank['skin'], count: number): number {
  const keys = ['nails-cut', 'stubs-punched', 'nails-driven'];
  if (skin === 'planking') keys.push('bungs-out', 'bungs-in');
  return keys.reduce((sum, key) => sum + rateMinutes(book, key, count), 0);
}
