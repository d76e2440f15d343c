import { count } from '../words/amounts.js';
import { sayInches, type Units } from '../words/lengths.js';
import type { PumpTrend, Written } from './pump-log.question.js';

type Figures = Pick<Written, 'depthMillimetres' | 'strokes' | 'minutes'>;
const isWritten = (figure: number | null | undefined): figure is number => typeof figure === 'number';

/** "4½ in of water, 40 strokes"; "no figure" where there is none. */
export function sayRound({ depthMillimetres: depth, strokes, minutes }: Figures, units: Units): string {
  const parts = [
    isWritten(depth) ? `${sayInches(depth, units)} of water` : null,
    isWritten(strokes) ? count(strokes, 'stroke') : null,
    isWritten(minutes) ? `${count(minutes, 'minute')} pumped` : null,
  ].filter((part) => part !== null);
  return parts.join(', ') || 'no figure';
}

/** How one measure goes, in a sentence. @param at how an instant is said */
export function sayTrend(trend: PumpTrend, units: Units, at: (instant: string) => string): string {
  const { measure, goes, since } = trend;
  const figure = (value: number) => sayFigure(measure, value, units);
  const what = measure === 'DEPTH' ? 'The water' : 'The pumping';
  if (goes === 'LEVEL') return `${what} has been level since ${at(since)}: ${figure(trend.latest)}.`;
  const change = `from ${figure(trend.from)} to ${figure(trend.latest)}`;
  const each =
    measure === 'DEPTH'
      ? `, ${goes === 'RISING' ? 'up' : 'down'} ${figure(Math.abs(trend.perHour))} an hour`
      : '';
  return `${what} has been ${goes === 'RISING' ? 'rising' : 'falling'} since ${at(since)}: ${change}${each}.`;
}

function sayFigure(measure: PumpTrend['measure'], value: number, units: Units): string {
  if (measure === 'DEPTH') return sayInches(value, units);
  return `${count(Math.round(value), measure === 'STROKES' ? 'stroke' : 'minute')} an hour`;
}
