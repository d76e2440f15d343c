/**
 * Lengths of the vessel are kept in millimetres; the rules of the trade are written in inches and feet and are
 * computed in them, so that each can be held against its source.
 */
export type Millimetres = number;

const MILLIMETRES_AN_INCH = 25.4;

export const inches = (count: number): Millimetres => count * MILLIMETRES_AN_INCH;
export const feet = (count: number): Millimetres => inches(count * 12);
export const toInches = (length: Millimetres): number => length / MILLIMETRES_AN_INCH;
/** As a rule shows it, to the nearest thirty-second: 3/16, 1 1/4, 0. */
export function inchFraction(length: Millimetres): string {
  const whole = Math.round(toInches(Math.abs(length)) * 32);
  let [part, of] = [whole % 32, 32];
  while (part !== 0 && part % 2 === 0) [part, of] = [part / 2, of / 2];
  const inch = Math.floor(whole / 32);
  return [...(inch > 0 || part === 0 ? [`${inch}`] : []), ...(part > 0 ? [`${part}/${of}`] : [])].join(' ');
}

export const toFeet = (length: Millimetres): number => toInches(length) / 12;
