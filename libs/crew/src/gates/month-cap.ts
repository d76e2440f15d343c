import { commonPractice } from './rule-book.js';
import type { GateRule } from './gate.types.js';

/** "Not more than two turnouts a month": what somebody has said of themselves holds until they say otherwise. */
export const monthCapGate: GateRule = ({ hand, occasion }) => {
  const cap = hand.turnoutsAMonth ?? null;
  if (cap === null || (occasion.turnoutsThatMonth ?? 0) < cap) return [];
  return [
    {
      rule: 'month-full',
      weight: 'stop',
      words: `Not more than ${cap} ${cap === 1 ? 'turnout' : 'turnouts'} a month was asked for, and that month has them already.`,
      remedy: 'Leave another place that month, or say a larger number under “My days”.',
      basis: commonPractice,
    },
  ];
};
