import { type Millimetres } from '../measure.js';
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

function checkTaped({ length, widths, sweep, thickness, sapwood, defects }: TapedFlitch): void {
  needPositive(length, 'length', 'millimetres');
  needPositive(thickness, 'thickness', 'millimetres');
  need(widths.length >= 2, 'widths', `${widths.length} widths give no outline`, 'two or more, butt to top');
  widths.forEach((width, index) => {
    needPositive(width, `widths[${index}]`, 'millimetres');
  });
  need(
    Number.isFinite(sweep) && Math.abs(sweep) <= length / 3,
    'sweep',
    `${sweep} bends it more than a third of its length`,
    'the distance of its middle from the chord, in millimetres',
  );
  const narrowest = Math.min(...widths);
  need(
    sapwood >= 0 && 2 * sapwood < narrowest,
    'sapwood',
    `${sapwood} leaves nothing of ${narrowest}`,
    `0 or more, less than ${narrowest / 2}`,
  );
  defects.forEach((defect, index) => {
    needPositive(defect.length, `defects[${index}].length`, 'millimetres');
    needPositive(defect.width, `defects[${index}].width`, 'millimetres');
    need(
      defect.along >= 0 && defect.along <= length,
      `defects[${index}].along`,
      `${defect.along} lies beyond the flitch`,
      `0 to ${length}, from the butt`,
    );
  });
}
