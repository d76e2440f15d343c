import { type Millimetres } from '../measure.js';
import { need, needPositive } from '../refusal.js';
import { PRACTICE, type Rule } from '../rule.js';
import { type Point } from '../shape/patterns.js';
import { areaOf, type Outline } from './polygon.js';

/** A slab with its two bark edges, lying on the table, seen from above. */
export interface Flitch {
  key: string;
  name: string;
  thickness: Millimetres;
  outline: Outline;
  /** Width of sapwood along the edge, not to be used. */
  sapwood: Millimetres;
  /** Checks, shakes, rot, knots too big: outlines of what is not to be used. */
  defects: Outline[];
  /** How the grain runs from end to end; a crook has a bent line. */
  grain: Point[];
}

/** A shape to be got out of stock, its line of grain from heel to head. */
export interface StockPattern {
  key: string;
  name: string;
  outline: Outline;
  centre: Point[];
  thickness: Millimetres;
}

export const LAY_UP_RULES = {
  runOut: {
    key: 'grain-run-out',
    says: 'grain runs out of a piece at no more than 1 in 8 anywhere along it',
    value: 1 / 8,
    origin: PRACTICE,
  },
  apart: {
    key: 'saw-gap',
    says: 'pieces lie at least 12 mm apart for kerf and a shaky hand',
    value: 12,
    origin: PRACTICE,
  },
} satisfies Record<string, Rule<number>>;

export function checkStock(patterns: StockPattern[], stock: Flitch[]): void {
  const keys = (list: { key: string }[], field: string): void => {
    list.forEach(({ key }, index) => {
      need(
        list.findIndex((one) => one.key === key) === index,
        `${field}[${index}].key`,
        `"${key}" is used twice`,
        'a key of its own',
      );
    });
  };
  keys(patterns, 'patterns');
  keys(stock, 'stock');
  patterns.forEach((pattern, index) => {
    checkOutline(pattern.outline, `patterns[${index}].outline`);
    needPositive(pattern.thickness, `patterns[${index}].thickness`, 'millimetres');
    need(pattern.centre.length >= 2, `patterns[${index}].centre`, 'no line of grain', 'two points or more');
  });
  stock.forEach((flitch, index) => {
    checkOutline(flitch.outline, `stock[${index}].outline`);
    needPositive(flitch.thickness, `stock[${index}].thickness`, 'millimetres');
    need(flitch.sapwood >= 0, `stock[${index}].sapwood`, 'a width below nothing', '0 or more');
    need(flitch.grain.length >= 2, `stock[${index}].grain`, 'no line of grain', 'two points or more');
    flitch.defects.forEach((defect, at) => {
      checkOutline(defect, `stock[${index}].defects[${at}]`);
    });
  });
}

const checkOutline = (outline: Outline, field: string): void => {
  need(
    outline.length >= 3 && areaOf(outline) > 0,
    field,
    'encloses nothing',
    'three points or more around it',
  );
};
