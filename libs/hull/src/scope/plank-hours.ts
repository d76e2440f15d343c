import { toFeet } from '../measure.js';
import { RATES, personMinutes } from '../methods/rates.js';
import { fasteningsOf } from '../model/ask.js';
import { lengthOver } from '../model/bays.js';
import { type Hull, type Plank } from '../model/hull.js';

/** From butt to butt along the vessel. */
export const plankFeet = (hull: Hull, plank: Plank): number => toFeet(lengthOver(hull.stations, plank));

export const plankSquareFeet = (hull: Hull, plank: Plank): number =>
  plankFeet(hull, plank) * toFeet(plank.width);

/** Lifting a plank off and to the stickers, and dressing, steaming and hanging it again: whole crews. */
const LIFT_OFF = 5 * 75;
const DRESS_STEAM_HANG = 7 * 60 + 5 * 240;
const LIFT_CEILING = 3 * 30;

/** Person-minutes to take a plank off and put it back, all that goes with it. */
export function offAndBack(hull: Hull, plank: Plank): number {
  const nails = fasteningsOf(hull, plank);
  if (plank.skin === 'ceiling')
    return (
      personMinutes(nails, RATES.ceilingNailsPulled) +
      LIFT_CEILING +
      personMinutes(plankSquareFeet(hull, plank), RATES.ceilingRefitted) +
      personMinutes(nails, RATES.nailsDriven)
    );
  const seams = 2 * plankFeet(hull, plank);
  return (
    personMinutes(nails, RATES.bungsOut) +
    personMinutes(nails, RATES.nailsPulled) +
    LIFT_OFF +
    DRESS_STEAM_HANG +
    personMinutes(nails, RATES.nailsDriven) +
    personMinutes(nails, RATES.bungsIn) +
    personMinutes(seams, RATES.seamsCaulked) +
    personMinutes(seams, RATES.seamsPaid)
  );
}

/** Person-minutes to free so many fastenings of a plank that stays, and to make good. */
export const cutInPlace = (skin: Plank['skin'], count: number): number =>
  personMinutes(count, RATES.nailsCut) +
  personMinutes(count, RATES.stubsPunched) +
  (skin === 'planking' ? personMinutes(count, RATES.bungsOut) + personMinutes(count, RATES.bungsIn) : 0) +
  personMinutes(count, RATES.nailsDriven);
