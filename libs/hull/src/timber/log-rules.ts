import { need, needPositive } from '../refusal.js';
import { fromDocument, fromMemory, type Origin } from '../rule.js';

/** Board feet in a log: `diameter` inside bark at the small end in inches, `length` in feet. */
export interface LogRule {
  key: string;
  name: string;
  origin: Origin;
  boardFeet: (diameter: number, length: number) => number;
}

const checked = (diameter: number, length: number): void => {
  needPositive(diameter, 'diameter', 'inches');
  needPositive(length, 'length', 'feet');
};

/** Doyle: ((D - 4) / 4)^2 L. Nothing below 4 inches. */
export function doyle(diameter: number, length: number): number {
  checked(diameter, length);
  return (Math.max(diameter - 4, 0) / 4) ** 2 * length;
}

/**
 * International 1/4 inch: sum over 4-ft sections of 0.904762 (0.22 D^2 - 0.71 D), D growing by 1/2 inch a section
 * from the small end. A last piece shorter than 4 ft counts by its share of a section (our reading).
 */
export function internationalQuarter(diameter: number, length: number): number {
  checked(diameter, length);
  let feet = 0;
  for (let section = 0; section * 4 < length; section += 1) {
    const wide = diameter + section / 2;
    const share = Math.min(length - section * 4, 4) / 4;
    feet += share * 0.904762 * Math.max(0.22 * wide ** 2 - 0.71 * wide, 0);
  }
  return feet;
}

/** Scribner by formula: (0.79 D^2 - 2 D - 4) L / 16. The printed table differs from it: see `DECIMAL_C_PRINTED`. */
export function scribner(diameter: number, length: number): number {
  checked(diameter, length);
  return (Math.max(0.79 * diameter ** 2 - 2 * diameter - 4, 0) * length) / 16;
}

/**
 * Points of the printed Scribner Decimal C table, in tens of board feet. The table was drawn, not computed: where a
 * sale is by Decimal C the printed table of that sale counts, and the formula is only near it.
 */
export const DECIMAL_C_PRINTED: { diameter: number; length: number; tens: number; origin: Origin }[] = [
  { diameter: 30, length: 16, tens: 66, origin: fromDocument('The Farm and Garden Rule Book, L. H. Bailey') },
  { diameter: 6, length: 8, tens: 0.5, origin: fromDocument('The Farm and Garden Rule Book, L. H. Bailey') },
];

export const LOG_RULES: LogRule[] = [
  {
    key: 'doyle',
    name: 'Doyle',
    origin: fromMemory('Doyle rule as tabled in forestry handbooks'),
    boardFeet: doyle,
  },
  {
    key: 'international-quarter',
    name: 'International 1/4 inch',
    origin: fromDocument('Michigan Act 208 of 1941, MCL 290.401'),
    boardFeet: internationalQuarter,
  },
  {
    key: 'scribner',
    name: 'Scribner (formula)',
    origin: fromMemory('USDA Forest Service handbooks'),
    boardFeet: scribner,
  },
];

/** Board feet of sawn stock: thickness and width in inches, length in feet. */
export function boardFeet(thickness: number, width: number, length: number): number {
  needPositive(thickness, 'thickness', 'inches');
  needPositive(width, 'width', 'inches');
  needPositive(length, 'length', 'feet');
  return (thickness * width * length) / 12;
}

/** Share of a log's diameter that is free of sapwood, wane and shake. Common practice, no source; measure your own. */
export const USABLE_DIAMETER = 0.85;

export interface UsableLog {
  diameter: number;
  /** Share of the end's area. */
  area: number;
  /** Side of the largest square beam. */
  square: number;
}

/** What is left of a log of this diameter, in its own unit. */
export function usableLog(diameter: number, share = USABLE_DIAMETER): UsableLog {
  needPositive(diameter, 'diameter', '');
  need(share > 0 && share <= 1, 'share', `${share} is no share`, 'more than 0, at most 1');
  return { diameter: share * diameter, area: share ** 2, square: (share * diameter) / Math.SQRT2 };
}

/** Share of a log that ends up as shaped stock, after kerf and defects. Common practice, no source. */
export const SHAPED_YIELD = {
  planks: { low: 0.45, high: 0.65 },
  'sawn futtocks': { low: 0.25, high: 0.4 },
} as const;
