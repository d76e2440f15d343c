import { needPositive } from '../refusal.js';

/** Sizes that go by a plank's thickness; inches and hours. Common practice, no source. */
export interface PlankSizes {
  nailLength: { low: number; high: number };
  nailSide: { low: number; high: number };
  /** Share of the nail's side that is bored before driving. */
  prebore: { low: number; high: number };
  bungDepth: { low: number; high: number };
  steamHours: number;
}

export function sizesFor(plankThickness: number): PlankSizes {
  needPositive(plankThickness, 'plankThickness', 'inches');
  return {
    nailLength: { low: 2 * plankThickness, high: 2.5 * plankThickness },
    nailSide: { low: plankThickness / 7, high: plankThickness / 6 },
    prebore: { low: 0.7, high: 0.9 },
    bungDepth: { low: plankThickness / 4, high: plankThickness / 3 },
    steamHours: plankThickness,
  };
}

/** Minutes within which a plank is hung after it leaves the steam box. Common practice, no source. */
export const HANG_WITHIN_MINUTES = { low: 2, high: 5 } as const;

/** A new hole lies this many nail diameters from an old one that is not used again. Common practice, no source. */
export const NEW_HOLE_DIAMETERS = 4;

/** The plug for a hole: bits go by sixteenths of an inch, and the plug is cut for the bit that cleans the hole. */
export function plugFor(holeDiameter: number): number {
  needPositive(holeDiameter, 'holeDiameter', 'inches');
  return Math.ceil(holeDiameter * 16 - 1e-9) / 16;
}

/** Pounds a cubic foot (from memory: Wood Handbook). */
export const DENSITY = { 'Douglas fir, dry': 34, 'Douglas fir, green': 39 } as const;

/** Pounds that one carrier takes, and carriers beyond whom gear lifts and not people. Common practice, no source. */
export const POUNDS_A_CARRIER = 35;
export const MOST_CARRIERS = 4;

export interface PieceWeight {
  cubicFeet: number;
  pounds: number;
  carriers: number;
  liftingGear: boolean;
}

/** Thickness and width in inches, length in feet, density in pounds a cubic foot. */
export function pieceWeight(
  thickness: number,
  width: number,
  length: number,
  density: number,
  highUp = false,
): PieceWeight {
  needPositive(thickness, 'thickness', 'inches');
  needPositive(width, 'width', 'inches');
  needPositive(length, 'length', 'feet');
  needPositive(density, 'density', 'pounds a cubic foot');
  const cubicFeet = (thickness * width * length) / 144;
  const pounds = cubicFeet * density;
  const carriers = Math.ceil(pounds / POUNDS_A_CARRIER);
  return { cubicFeet, pounds, carriers, liftingGear: highUp || carriers > MOST_CARRIERS };
}
