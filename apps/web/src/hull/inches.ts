const perInch = 25.4;

/** '198 3/16 in', to the sixteenth. */
export function sayInches(millimetres: number): string {
  const sixteenths = Math.round((Math.abs(millimetres) / perInch) * 16);
  const whole = Math.floor(sixteenths / 16);
  const rest = sixteenths % 16;
  const divide = rest === 0 ? 1 : ([8, 4, 2, 1].find((by) => rest % by === 0) ?? 1);
  const fraction = rest === 0 ? '' : `${rest / divide}/${16 / divide}`;
  const sign = millimetres < 0 && sixteenths > 0 ? '−' : '';
  return `${sign}${[whole > 0 || !fraction ? String(whole) : '', fraction].filter(Boolean).join(' ')} in`;
}

/** Inches as they are typed: '198 3/16', '198.19', '3/16'; NaN where it is neither. */
export function readInches(text: string): number {
  const found = /^(?:(\d+(?:\.\d+)?)(?:\s+|$))?(?:(\d+)\s*\/\s*(\d+))?$/.exec(
    text.trim().replace(/\s*(in|″|")$/, ''),
  );
  if (!found || (found[1] === undefined && found[2] === undefined)) return NaN;
  const [whole, over, under] = [Number(found[1] ?? 0), Number(found[2] ?? 0), Number(found[3] ?? 1)];
  return under === 0 ? NaN : (whole + over / under) * perInch;
}
