/** Lengths as the yard measures: feet and inches to an eighth, or millimetres and metres. */
export type Units = 'IMPERIAL' | 'METRIC';

const perInch = 25.4;
const eighths = ['', '⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'];

/** A small length: "4½ in" or "114 mm". */
export function sayInches(millimetres: number, units: Units): string {
  if (units === 'METRIC') return `${Math.round(millimetres).toLocaleString('en')} mm`;
  return `${inchFigure(millimetres / perInch)} in`;
}

/** A long one: "12 ft 6 in" or "3.81 m". */
export function sayFeet(millimetres: number, units: Units): string {
  if (units === 'METRIC') return `${(millimetres / 1000).toFixed(2)} m`;
  const inches = Math.round(millimetres / perInch);
  const [feet, rest] = [Math.floor(inches / 12), inches % 12];
  if (feet === 0) return `${rest} in`;
  return rest === 0 ? `${feet} ft` : `${feet} ft ${rest} in`;
}

/** What is measured finely: "198 3/16 in", to the sixteenth, or "5,033.9 mm". */
export function sayFine(millimetres: number, units: Units): string {
  if (units === 'METRIC') {
    const tenths = Math.round(millimetres * 10) / 10;
    return `${tenths < 0 ? '−' : ''}${Math.abs(tenths).toLocaleString('en')} mm`;
  }
  const sixteenths = Math.round((Math.abs(millimetres) / perInch) * 16);
  const whole = Math.floor(sixteenths / 16);
  const rest = sixteenths % 16;
  const divide = rest === 0 ? 1 : ([8, 4, 2, 1].find((by) => rest % by === 0) ?? 1);
  const fraction = rest === 0 ? '' : `${rest / divide}/${16 / divide}`;
  const sign = millimetres < 0 && sixteenths > 0 ? '−' : '';
  return `${sign}${[whole > 0 || !fraction ? String(whole) : '', fraction].filter(Boolean).join(' ')} in`;
}

/** The same as it is typed: '198 3/16', '198.19', '3/16', or millimetres; NaN where it is none of these. */
export function readFine(text: string, units: Units): number {
  const bare = text.trim().replace(units === 'METRIC' ? /\s*mm$/ : /\s*(in|″|")$/, '');
  if (units === 'METRIC') return /^\d+(\.\d+)?$/.test(bare) ? Number(bare) : NaN;
  const found = /^(?:(\d+(?:\.\d+)?)(?:\s+|$))?(?:(\d+)\s*\/\s*(\d+))?$/.exec(bare);
  if (!found || (found[1] === undefined && found[2] === undefined)) return NaN;
  const [whole, over, under] = [Number(found[1] ?? 0), Number(found[2] ?? 0), Number(found[3] ?? 1)];
  return under === 0 ? NaN : (whole + over / under) * perInch;
}

/** What was typed, in inches or millimetres, as whole millimetres. */
export function readLength(typed: number, units: Units): number {
  return Math.round(units === 'METRIC' ? typed : typed * perInch);
}

/** As it stands in a field for `readLength`. */
export function forField(millimetres: number, units: Units): string {
  return units === 'METRIC' ? String(millimetres) : String(Math.round((millimetres / perInch) * 8) / 8);
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
