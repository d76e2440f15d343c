import { driftOf } from '@ribband/engine';
import { daysBetween } from '@ribband/platform';
import { count, type DayWords } from '../words/days.js';
import type { OutlookMark } from './outlook-mark.entity.js';

type Mark = Pick<OutlookMark, 'markedOn' | 'likelyOn' | 'gateOdds' | 'reasons'>;

export interface TrendTold {
  sentence: string;
  daysAWeek: number | null;
}

/** Below half a day a week nobody would call it moving. */
const still = 0.5;

/**
 * How the day by which she is ready in 8 futures of 10 has moved, in a sentence: since when, and what was recorded
 * just before. With two marks it is a step, with three and more a slope.
 * @param marks oldest first
 */
export function trendOf(marks: readonly Mark[], days: DayWords): TrendTold {
  const dated = marks.flatMap((mark) =>
    mark.likelyOn === null ? [] : [{ ...mark, likelyOn: mark.likelyOn }],
  );
  const [first] = dated;
  const last = dated.at(-1);
  if (!first || !last || dated.length < 2)
    return { sentence: 'No trend yet: the first forecasts are being gathered, one a day.', daysAWeek: null };
  const drift = driftOf(
    dated.map(({ markedOn, likelyOn }) => ({
      on: daysBetween(first.markedOn, markedOn),
      date: daysBetween(first.markedOn, likelyOn),
    })),
  );
  if (!drift) {
    const moved = daysBetween(first.likelyOn, last.likelyOn);
    if (moved === 0) return { sentence: `Unmoved since ${days.day(first.markedOn)}.`, daysAWeek: null };
    const size = count(Math.abs(moved), 'day');
    return {
      sentence: `${size} ${moved > 0 ? 'later' : 'earlier'} than on ${days.day(first.markedOn)}${because(last.reasons)}.`,
      daysAWeek: null,
    };
  }
  const { daysAWeek, since } = drift;
  const from = dated[since] ?? first;
  if (Math.abs(daysAWeek) < still)
    return { sentence: `Holding steady since ${days.day(from.markedOn)}.`, daysAWeek };
  const pace = Math.round(Math.abs(daysAWeek) * 2) / 2;
  const says = `${daysAWeek > 0 ? 'Slipping' : 'Gaining'} ${count(pace, 'day')} a week since ${days.day(from.markedOn)}`;
  // The date began to move between this mark and the next one.
  const cause = dated[since + 1]?.reasons ?? [];
  return { sentence: `${says}${because(cause)}.`, daysAWeek };
}

function because(reasons: readonly string[]): string {
  const last = reasons.at(-1);
  return last === undefined ? '' : `, when ${last}`;
}
