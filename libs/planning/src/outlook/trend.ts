import { driftOf } from '@ribband/engine';
import { daysBetween } from '@ribband/platform';
import { count, type DayWords } from '../words/days.js';
import { fitting } from './event-words.js';
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
 * between the two marks that are compared and can move it that way. With two marks it is a step, with three and more
 * a slope.
 * @param marks oldest first
 */
export function trendOf(marks: readonly Mark[], days: DayWords): TrendTold {
  const dated = marks.flatMap(({ markedOn, likelyOn }, at) =>
    likelyOn === null ? [] : [{ markedOn, likelyOn, at }],
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
    const why = because(marks.slice(first.at + 1, last.at + 1), moved);
    return {
      sentence: `${size} ${moved > 0 ? 'later' : 'earlier'} than on ${days.day(first.markedOn)}${why}.`,
      daysAWeek: null,
    };
  }
  const { daysAWeek, since } = drift;
  const from = dated[since] ?? first;
  if (Math.abs(daysAWeek) < still)
    return { sentence: `Holding steady since ${days.day(from.markedOn)}.`, daysAWeek };
  const pace = Math.round(Math.abs(daysAWeek) * 2) / 2;
  const says = `${daysAWeek > 0 ? 'Slipping' : 'Gaining'} ${count(pace, 'day')} a week since ${days.day(from.markedOn)}`;
  // The date began to move between this mark and the next one, if it moved there that way.
  const next = dated[since + 1] ?? from;
  const began = daysBetween(from.likelyOn, next.likelyOn);
  const cause = began * daysAWeek > 0 ? because(marks.slice(from.at + 1, next.at + 1), began) : '';
  return { sentence: `${says}${cause}.`, daysAWeek };
}

/** The newest reason in these marks that may have moved the day that way. */
function because(marks: readonly Mark[], moved: number): string {
  const reasons = marks.flatMap((mark) => mark.reasons);
  const last = fitting(reasons, moved > 0 ? 'later' : 'sooner').at(-1);
  return last === undefined ? '' : `: ${last}`;
}
