/**
 * Lengths of the vessel are kept in millimetres; the rules of the trade are written in inches and feet and are
 * computed in them, so that each can be held against its source.
 */
export type Millimetres = number;

const MILLIMETRES_AN_INCH = 25.4;

export const inches = (count: number): Millimetres => count * MILLIMETRES_AN_INCH;
export const feet = (count: number): Millimetres => inches(count * 12);
export const toInches = (length: Millimetres): number => length / MILLIMETRES_AN_INCH;
export const toFeet = (length: Millimetres): number => toInches(length) / 12;
