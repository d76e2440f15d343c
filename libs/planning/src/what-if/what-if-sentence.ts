import { instantToLocal } from '@ribband/platform';
import { capital } from '@ribband/repair';
import { DayWords } from '../words/days.js';
import { oddsWords } from '../words/odds-words.js';
import type { WhatIfResult } from './supposed.js';

/** Standard errors within which 95 of 100 differences lie that are no more than luck. */
const luck = 1.96;

/**
 * '9 in 10 instead of 6 in 10 to make the gate; ready in 8 futures of 10 by 3 Oct instead of 14 Oct.' What the same
 * futures can't tell from luck is told as it is now.
 */
export function whatIfSentence(result: WhatIfResult, zone: string): string {
  return `${capital(oddsPart(result))}; ready in 8 futures of 10 by ${daysPart(result, zone)}.`;
}

function oddsPart({ now, then, gained }: WhatIfResult): string {
  const [before, after] = [oddsWords(now.gate.odds), oddsWords(then.gate.odds)];
  const by = gained?.odds ?? {
    odds: then.gate.odds - now.gate.odds,
    error: Math.hypot(now.gate.error, then.gate.error),
  };
  if (Math.abs(by.odds) <= luck * by.error) return `${before} to make the gate, as now`;
  if (before !== after) return `${after} instead of ${before} to make the gate`;
  return `still ${after} to make the gate, a little ${by.odds > 0 ? 'better' : 'worse'}`;
}

function daysPart({ now, then, gained }: WhatIfResult, zone: string): string {
  const year = instantToLocal(now.readyAt ?? then.readyAt ?? 0, zone).day.slice(0, 4);
  const days = new DayWords(zone, year);
  const at = (instant: number | null) => (instant === null ? 'no day that is known' : days.at(instant));
  const [before, after] = [at(now.likelyAt), at(then.likelyAt)];
  if (before === after) return `${before}, as now`;
  const isLuck = gained !== undefined && Math.abs(gained.likely.minutes) <= luck * gained.likely.error;
  return isLuck ? `about ${before}, as now` : `${after} instead of ${before}`;
}
