import { stop } from './found.js';
import type { Finding, GateRule } from './gate.types.js';

/** On the day nobody is on work who has not signed in. 29 CFR 1915.84. */
export const checkInGate: GateRule = ({ hand, occasion: { asked, yard } }) =>
  asked === 'on the day' && yard.checkedIn !== null && !yard.checkedIn.has(hand.id)
    ? [stop('check-in', `${hand.name} has not signed in.`, 'Sign in with who keeps the roll.')]
    : [];

/** How a turnout stands at its end. Instants in epoch milliseconds. */
export interface Closing {
  now: number;
  /** Who signed in and was not accounted for since, by name. */
  notAccountedFor: readonly string[];
  /** Fires that are watched: until when the watch stays, and whether somebody looked again after it. */
  watches: readonly { title: string; staysUntil: number; lookedAgain: boolean }[];
}

/** What stands in the way of closing a turnout: the roll, and fires that are still watched. 29 CFR 1915.84 and 1915.504(c)(2). */
export function mayClose({ now, notAccountedFor, watches }: Closing): Finding[] {
  const findings = notAccountedFor.map((name) =>
    stop('roll', `${name} is not accounted for.`, 'See or hear them, then sign them off.'),
  );
  for (const { title, staysUntil, lookedAgain } of watches) {
    if (now < staysUntil)
      findings.push(
        stop(
          'hot-work-last',
          `The fire watch on “${title}” stays another ${Math.ceil((staysUntil - now) / 60_000)} minutes.`,
        ),
      );
    else if (!lookedAgain)
      findings.push(
        stop(
          'hot-work-last',
          `Nobody has looked again at “${title}” after the watch.`,
          'Look, and write it down.',
        ),
      );
  }
  return findings;
}
