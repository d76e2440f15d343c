import { daysBetween } from '@ribband/platform';
import { capital } from '@ribband/repair';
import { count, listOf } from '../words/days.js';
import { oddsWords } from '../words/odds-words.js';
import { asReason, fitting, type Reason } from './event-words.js';

/** How things looked by one forecast. */
export interface Seen {
  gateOdds: number;
  /** Its standard error. */
  error: number;
  /** Ready by this day in 50 of 100 futures; null past the last turnout. */
  evenOn: string | null;
}

/** How things looked before the newest events that were recorded, and what those were. */
export interface Before extends Seen {
  /** Mere words in older ones. */
  reasons: (string | Reason)[];
  /** As it looks with them, the work taken in the order of then: what the events do by themselves. */
  inOldOrder: Seen;
}

/** Odds that differ by less nobody would act on. Common practice, no source. */
const small = 0.02;
/** Days that nobody would call a move. */
const fewDays = 1;

/**
 * What the newest events did: '1 in 10 instead of 5 in 10, and 21 days later, since the sawyer was away longer.' The
 * forecasts met the same luck, so what differs in the old order is the events' doing.
 * @returns null where nothing was recorded between two forecasts
 */
export function lastMove(before: Before | null, now: Seen): string | null {
  if (!before || before.reasons.length === 0) return null;
  if (!hasMoved(before, before.inOldOrder)) {
    const gained = now.gateOdds - before.inOldOrder.gateOdds;
    const order =
      gained > small && oddsWords(now.gateOdds) !== oddsWords(before.gateOdds)
        ? ' The gain comes from a better order of the work.'
        : '';
    const all = before.reasons.map((one) => asReason(one).words);
    return `Hardly moved, though ${listOf(all.slice(-mostReasons))}.${order}`;
  }
  if (isWorse(before, before.inOldOrder) && !(isWorse(before, now) && hasMoved(before, now))) {
    const [then, since] = [oddsWords(before.inOldOrder.gateOdds), oddsWords(now.gateOdds)];
    return then === since
      ? `Still ${since}${clause(before, 'though', 'later')}: a better order of the work makes up for it.`
      : `${capital(then)} in the old order of the work${clause(before, 'since', 'later')}; a better order makes it ${since}.`;
  }
  const [old, fresh] = [oddsWords(before.gateOdds), oddsWords(now.gateOdds)];
  const little = littleWords(before, now);
  const odds =
    old === fresh || little === '' ? `Still ${fresh}${little}` : `${capital(fresh)} instead of ${old}`;
  const why = isWorse(before, now)
    ? isWorse(before, before.inOldOrder) && clause(before, 'since', 'later')
    : !isWorse(before, before.inOldOrder) && clause(before, 'since', 'sooner');
  return `${odds}${whenWords(before, now)}${why || ''}.`;
}

/** What was recorded and can have moved it that way, as a clause; nothing where nothing can have. */
function clause({ reasons }: Before, word: 'since' | 'though', moved: 'sooner' | 'later'): string {
  const why = fitting(reasons, moved).slice(-mostReasons);
  return why.length === 0 ? '' : `, ${word} ${listOf(why)}`;
}

/** Odds that can't be told apart are neither better nor worse. */
function littleWords(before: Seen, now: Seen): string {
  const gained = now.gateOdds - before.gateOdds;
  if (Math.abs(gained) <= small) return '';
  return gained < 0 ? ', a little worse' : ', a little better';
}

const mostReasons = 3;

/** Whether two looks at the same futures differ by more than sampling and than anybody cares for. */
export function hasMoved(before: Seen, now: Seen): boolean {
  if (Math.abs(now.gateOdds - before.gateOdds) > small) return true;
  if (before.evenOn === null || now.evenOn === null) return before.evenOn !== now.evenOn;
  return Math.abs(daysBetween(before.evenOn, now.evenOn)) > fewDays;
}

/** By odds where those can be told apart, else by the days. */
function isWorse(before: Seen, now: Seen): boolean {
  if (Math.abs(now.gateOdds - before.gateOdds) > small) return now.gateOdds < before.gateOdds;
  if (before.evenOn === null || now.evenOn === null) return now.evenOn === null && before.evenOn !== null;
  return now.evenOn > before.evenOn;
}

function whenWords(before: Seen, now: Seen): string {
  if (before.evenOn === null) return '';
  if (now.evenOn === null) return ', and as likely as not she is not ready by the last turnout';
  const days = daysBetween(before.evenOn, now.evenOn);
  if (Math.abs(days) <= fewDays) return '';
  return `, and as likely as not ${count(Math.abs(days), 'day')} ${days > 0 ? 'later' : 'earlier'}`;
}
