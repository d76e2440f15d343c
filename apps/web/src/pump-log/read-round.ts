import type { Refusal } from '../live/deed.js';
import { dayOf, timeOf } from '../words/dates.js';
import { readFine, sayInches, unitName, type Units } from '../words/lengths.js';
import type { Written } from './pump-log.question.js';

/** What was typed into a control, by its name; '' for nothing. */
type Typed = (name: string) => string;

type Figures = Record<'depthMillimetres' | 'strokes' | 'minutes', number | null>;
type Read = { readAt: string } | { read: { on: string; time: string } };

const mostMillimetres = 10_000;

/**
 * When somebody looked. The instant itself where no time was typed, or that of the entry was left as it is: where the
 * clocks go back, a time alone would mean two.
 */
export function momentOf(
  typed: Typed,
  { entry, now, timeZone }: { entry: Pick<Written, 'readAt'> | null; now: string; timeZone: string },
): Read {
  const [on, time] = [typed('on'), typed('read')];
  const today = dayOf(now, timeZone);
  if (time === '' && (on === '' || on === today)) return { readAt: now };
  if (entry && on === dayOf(entry.readAt, timeZone) && time === timeOf(entry.readAt, timeZone))
    return { readAt: entry.readAt };
  return { read: { on: on || today, time: time || timeOf(now, timeZone) } };
}

/** The figures of a round, null where nothing was typed; or what is refused before anything is sent, by its field. */
export function figuresOf(typed: Typed, units: Units): { figures: Figures } | { refusal: Refusal } {
  const depth = depthOf(typed('depthMillimetres'), units);
  const strokes = wholeOf(typed('strokes'), 100_000);
  const minutes = wholeOf(typed('minutes'), 1440);
  if (Number.isNaN(depth))
    return no(
      'depthMillimetres',
      `“${typed('depthMillimetres')}” is no depth of water in ${unitName(units)}.`,
      `A number from 0 to ${sayInches(mostMillimetres, units)}; empty where nobody sounded.`,
    );
  if (Number.isNaN(strokes))
    return no(
      'strokes',
      `Strokes are a whole number from 0 to 100,000, not “${typed('strokes')}”.`,
      '0 for none; empty where nobody counted.',
    );
  if (Number.isNaN(minutes))
    return no(
      'minutes',
      `Minutes are a whole number from 0 to 1,440, not “${typed('minutes')}”.`,
      '0 for none; empty where nobody looked at the clock.',
    );
  return { figures: { depthMillimetres: depth, strokes, minutes } };
}

function depthOf(text: string, units: Units): number | null {
  if (text === '') return null;
  const millimetres = Math.round(readFine(text, units));
  return millimetres <= mostMillimetres ? millimetres : NaN;
}

function wholeOf(text: string, most: number): number | null {
  if (text === '') return null;
  return /^\d+$/.test(text) && Number(text) <= most ? Number(text) : NaN;
}

const no = (field: keyof Figures, message: string, remedy: string): { refusal: Refusal } => ({
  refusal: { code: 'BAD_INPUT', message, field: `input.${field}`, remedy, facts: [] },
});
