import type { Finding, GateRuleName } from './gate.types.js';
import { ruleBook } from './rule-book.js';

/** A finding with the basis of its rule, unless it has one of its own. */
function found(weight: Finding['weight']) {
  return (
    rule: GateRuleName,
    words: string,
    remedy: string | null = null,
    basis: string = ruleBook[rule].basis,
  ): Finding => ({ rule, weight, words, remedy, basis });
}

export const stop = found('stop');
export const caution = found('caution');

/** What can still be put right before the day: a caution ahead, a stop on the day. */
export const onTheDay = (asked: 'ahead' | 'on the day'): typeof stop => (asked === 'ahead' ? caution : stop);
