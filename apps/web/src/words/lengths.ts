/** Lengths as the yard measures: feet and inches to an eighth, or millimetres and metres. */
export type Units = 'IMPERIAL' | 'METRIC';

const eighths = ['', '⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'];

/** A small length: "4½ in" or "114 mm". */
export function sayInches(millimetres: number, units: Units): string {
  if (units === 'METRIC') return `${Math.round(millimetres).toLocaleString('en')} mm`;
  return `${inchFigure(millimetres / 25.4)} in`;
}

/** A long one: "12 ft 6 in" or "3.81 m". */
export function sayFeet(millimetres: number, units: Units): string {
  if (units === 'METRIC') return `${(millimetres / 1000).toFixed(2)} m`;
  const inches = Math.round(millimetres / 25.4);
  const [feet, rest] = [Math.floor(inches / 12), inches % 12];
  if (feet === 0) return `${rest} in`;
  return rest === 0 ? `${feet} ft` : `${feet} ft ${rest} in`;
}

/** What was typed, in inches or millimetres, as whole millimetres. */
export function readLength(typed: number, units: Units): number {
  return Math.round(units === 'METRIC' ? typed : typed * 25.4);
}

/** As it stands in a field for `readLength`. */
export function forField(millimetres: number, units: Units): string {
  return units === 'METRIC' ? String(millimetres) : String(Math.round((millimetres / 25.4) * 8) / 8);
}

export function unitName(units: Units): string {
  return units === 'METRIC' ? 'mm' : 'inches';
}

function inchFigure(inches: number): string {
  const parts = Math.round(Math.abs(inches) * 8);
  const whole = Math.floor(parts / 8);
  const rest = eighths[parts % 8] ?? '';
  const sign = inches < 0 && parts > 0 ? '−' : '';
  return whole === 0 && rest ? `${sign}${rest}` : `${sign}${whole}${rest}`;
}
