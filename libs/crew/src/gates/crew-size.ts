import { onTheDay, stop } from './found.js';
import type { GateRule, TurnoutRule } from './gate.types.js';

/** Nobody is at the yard alone. 29 CFR 1915.84 asks that those who work alone are accounted for; two are common practice. */
export const twoPersonsGate: TurnoutRule = ({ occasion }) =>
  occasion.asked === 'on the day' && occasion.atTurnout.length === 0
    ? [stop('two-persons', 'Nobody works at the yard alone.', 'Wait for somebody, or go home.')]
    : [];

/** Work starts with its least crew. Ahead of the day places still fill. Common practice. */
export const minimumCrewGate: GateRule = ({ job, occasion }) => {
  const there = occasion.alongside.length + 1;
  if (occasion.asked === 'ahead' || there >= job.crewMin) return [];
  return [
    onTheDay(occasion.asked)(
      'minimum-crew',
      `This work starts with ${job.crewMin}, and ${there} would be on it.`,
      'Add to the crew, or do other work.',
    ),
  ];
};
