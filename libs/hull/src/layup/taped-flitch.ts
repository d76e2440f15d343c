import { feet, type Millimetres } from '../measure.js';
import { need, needPositive } from '../refusal.js';
import { type Point } from '../shape/patterns.js';
import { type Outline } from './polygon.js';
import { type Flitch } from './stock.js';

/** A flitch as it is measured in the yard with a tape: no need to draw it. */
export interface TapedFlitch {
  key: string;
  name: string;
  thickness: Millimetres;
  length: Millimetres;
  /** Widths at equal distances from the butt to the top, bark to bark; two or more. */
  widths: Millimetres[];
  /** Greatest distance of its middle line from the chord; 0 for straight stock. It is taken for an even bend. */
  sweep: Millimetres;
  sapwood: Millimetres;
  defects: TapedDefect[];
}

/** What is not to be used, as a box: `along` from the butt and `across` from the middle line, to its own middle. */
export interface TapedDefect {
  along: Millimetres;
  across: Millimetres;
  length: Millimetres;
  width: Millimetres;
}

const STEPS = 24;

/** Outline and grain of a taped flitch: the grain follows its middle line. */
export function flitchOf(taped: TapedFlitch): Flitch {
  checkTaped(taped);
  const { key, name, thickness, length, widths, sweep, sapwood } = taped;
  const middle = (share: number): Point => ({ x: length * share, y: 4 * sweep * share * (1 - share) });
  const at = (share: number, across: Millimetres): Point => {
    const here = middle(share);
    const slope = (4 * sweep * (1 - 2 * share)) / length;
    const stretch = Math.hypot(1, slope);
    return { x: here.x - (across * slope) / stretch, y: here.y + across / stretch };
  };
  const shares = Array.from({ length: STEPS + 1 }, (_, index) => index / STEPS);
  const edge = (side: 1 | -1): Point[] =>
    shares.map((share) => at(share, (side * widthAt(widths, share)) / 2));
  const box = (defect: TapedDefect): Outline =>
    [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ].map(([endwise, sideways]) =>
      at(
        (defect.along + (endwise * defect.length) / 2) / length,
        defect.across + (sideways * defect.width) / 2,
      ),
    );
  return {
    key,
    name,
    thickness,
    outline: [...edge(1), ...edge(-1).reverse()],
    sapwood,
    defects: taped.defects.map(box),
    grain: shares.map(middle),
  };
}

function widthAt(widths: Millimetres[], share: number): Millimetres {
  const place = share * (widths.length - 1);
  const before = Math.min(Math.floor(place), widths.length - 2);
  return widths[before] + (widths[before + 1] - widths[before]) * (place - before);
}

/** Beyond the sizes of the greatest logs something was mistyped. Common practice, no source. */
const LONGEST = feet(120);
const WIDEST = feet(8);
const THICKEST = feet(3);

function needSize(value: Millimetres, field: string, most: Millimetres): void {
  needPositive(value, field, 'millimetres');
  need(
    value <= most,
    field,
    `${value} mm is more than there can be`,
    `at most ${Math.floor(most)} millimetres`,
  );
}

function checkTaped({ length, widths, sweep, thickness, sapwood, defects }: TapedFlitch): void {
  needSize(length, 'length', LONGEST);
  needSize(thickness, 'thickness', THICKEST);
  need(widths.length >= 2, 'widths', `${widths.length} widths give no outline`, 'two or more, butt to top');
  widths.forEach((width, index) => {
    needSize(width, `widths[${index}]`, WIDEST);
  });
  need(
    Math.abs(sweep) <= Math.min(length / 3, WIDEST),
    'sweep',
    `${sweep} bends it more than a third of its length, or more than any tree`,
    `the distance of its middle from the chord, at most ${Math.floor(Math.min(length / 3, WIDEST))} millimetres`,
  );
  const [narrowest, widest] = [Math.min(...widths), Math.max(...widths)];
  need(
    sapwood >= 0 && 2 * sapwood < narrowest,
    'sapwood',
    `${sapwood} leaves nothing of ${narrowest}`,
    `0 or more, less than ${narrowest / 2}`,
  );
  defects.forEach((defect, index) => {
    needSize(defect.length, `defects[${index}].length`, length);
    needSize(defect.width, `defects[${index}].width`, widest);
    need(
      Math.abs(defect.across) <= widest,
      `defects[${index}].across`,
      `${defect.across} lies beyond the flitch`,
      `at most ${widest} millimetres from its middle line`,
    );
    need(
      defect.along >= 0 && defect.along <= length,
      `defects[${index}].along`,
      `${defect.along} lies beyond the flitch`,
      `0 to ${length}, from the butt`,
    );
  });
}
