import { ageOn } from './age.js';
import { isKnownAdult, isMinor } from './age-gates.js';
import type { GateRule } from './gate.types.js';
import { commonPractice } from './rule-book.js';

/** Somebody under 18 works beside an adult, on the same work at the same time. Common practice. */
export const adultAlongsideGate: GateRule = ({ hand, occasion }) =>
  isMinor(hand, occasion.on) &&
  !occasion.alongside.some(({ hand: other }) => isKnownAdult(other, occasion.on))
    ? [
        {
          rule: 'adult-alongside',
          weight: 'stop',
          words: 'Under 18 one works beside an adult, and no adult is on this work yet.',
          remedy: 'Wait until an adult has a place on it, or ask the coordinator.',
          basis: commonPractice,
        },
      ]
    : [];

/** Two adults are at the yard whenever somebody under 18 works there. Common practice. */
export const twoAdultsGate: GateRule = ({ hand, occasion }) =>
  isMinor(hand, occasion.on) &&
  occasion.atTurnout.filter((other) => isKnownAdult(other, occasion.on)).length < 2
    ? [
        {
          rule: 'two-adults',
          weight: 'stop',
          words:
            'With anyone under 18 at the yard two adults are there, and fewer are down for this turnout yet.',
          remedy: 'Wait until two adults have places at this turnout, or ask the coordinator.',
          basis: commonPractice,
        },
      ]
    : [];

/** Below 16 an adult keeps them in sight all the time. Common practice. */
export const keptInSightGate: GateRule = ({ hand, occasion }) =>
  hand.bornOn !== null && ageOn(hand.bornOn, occasion.on) < occasion.yard.ages.inSightBelow
    ? [
        {
          rule: 'kept-in-sight',
          weight: 'caution',
          words: `Below ${occasion.yard.ages.inSightBelow} an adult keeps you in sight all the time; agree who that is before you start.`,
          remedy: null,
          basis: commonPractice,
        },
      ]
    : [];
