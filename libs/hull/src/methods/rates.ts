import { PRACTICE, type Origin } from '../rule.js';

/** Counts per person-hour: a slow day, a usual one, a good one. */
export interface Rate {
  low: number;
  likely: number;
  high: number;
}

export interface NamedRate extends Rate {
  key: string;
  says: string;
  unit: string;
  origin: Origin;
  /** What it is at the usual care, where a level of care was chosen that goes at another pace. */
  usual?: Rate | undefined;
}

const rate = (
  key: string,
  says: string,
  unit: string,
  low: number,
  likely: number,
  high: number,
): NamedRate => ({
  key,
  says,
  unit,
  low,
  likely,
  high,
  origin: PRACTICE,
});

/**
 * Starting values for mixed crews, to be overwritten by the crew's own log. The ranges are common practice; the
 * usual value inside each is ours.
 */
export const RATES = {
  bungsOut: rate('bungs-out', 'dig out bungs', 'bungs', 8, 12, 20),
  nailsPulled: rate('nails-pulled', 'pull plank nails to trays', 'nails', 3, 5, 8),
  rustedNailsPulled: rate('rusted-nails-pulled', 'pull rusted plank nails', 'nails', 1, 2, 3),
  ceilingNailsPulled: rate('ceiling-nails-pulled', 'pull ceiling nails', 'nails', 3, 5, 8),
  nailsCut: rate('nails-cut', 'cut nails behind a timber that stays', 'nails', 4, 6, 10),
  boltsOut: rate('bolts-out', 'back out or cut bolts', 'bolts', 0.5, 0.8, 2),
  boltsIn: rate('bolts-in', 'bolt up', 'bolts', 2, 3, 5),
  stubsPunched: rate('stubs-punched', 'punch stubs from kept timber', 'stubs', 4, 8, 15),
  holesPlugged: rate('holes-plugged', 'bore and plug old holes, pare', 'plugs', 8, 12, 20),
  plugsMade: rate('plugs-made', 'make plugs from old stock', 'plugs', 15, 25, 40),
  nailsDriven: rate('nails-driven', 'drive nails, boring included', 'nails', 8, 12, 20),
  nailsCleaned: rate('nails-cleaned', 'clean, straighten and gauge saved nails', 'nails', 20, 35, 60),
  bungsIn: rate('bungs-in', 'bung, let set, pare', 'bungs', 15, 25, 40),
  bungsMade: rate('bungs-made', 'cut and dry bungs', 'bungs', 40, 70, 120),
  ceilingRefitted: rate('ceiling-refitted', 'refit ceiling', 'square feet', 5, 7, 10),
  hullFaired: rate('hull-faired', 'fair planking', 'square feet', 40, 65, 100),
  seamsCaulked: rate('seams-caulked', 'caulk with cotton and oakum', 'feet', 5, 15, 40),
  seamsPaid: rate('seams-paid', 'prime, pay, putty', 'feet', 30, 50, 80),
} satisfies Record<string, NamedRate>;
