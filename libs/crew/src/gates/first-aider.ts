import { caution, onTheDay } from './found.js';
import type { Finding, Hand, TurnoutRule } from './gate.types.js';
import { cardCountsOn } from './skill-and-card.js';

/** Whether somebody's first-aid card counts on a day. */
export function givesFirstAid(hand: Hand, kinds: ReadonlySet<string>, on: string): boolean {
  return hand.cards.some((card) => kinds.has(card.kindId) && cardCountsOn(card, on));
}

/**
 * Somebody with a first-aid card at every turnout: 29 CFR 1915.87 asks for a trained provider each shift, with
 * exceptions for a clinic or help within 5 minutes that the yard may claim. Ahead of the day it can still be arranged.
 */
export const firstAiderGate: TurnoutRule = ({
  hand,
  occasion: { yard, on, asked, atTurnout },
}): Finding[] => {
  if ([hand, ...atTurnout].some((one) => givesFirstAid(one, yard.firstAidKinds, on))) return [];
  if (yard.firstAidKinds.size === 0)
    return asked === 'ahead'
      ? []
      : [caution('first-aider', 'The yard keeps no record of first-aid cards: ask who has one.')];
  return [
    onTheDay(asked)(
      'first-aider',
      'Nobody with a first-aid card that counts is down for this turnout.',
      'The coordinator finds somebody with a card, or renews one.',
    ),
  ];
};
