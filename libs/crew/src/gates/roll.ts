import { caution, stop } from './found.js';
import type { Finding, GateRule } from './gate.types.js';

/** On the day nobody is on work who has not signed in. 29 CFR 1915.84. */
export const checkInGate: GateRule = ({ hand, occasion: { asked, yard } }) =>
  asked === 'on the day' && yard.checkedIn !== null && !yard.checkedIn.has(hand.id)
    ? [stop('check-in', `${hand.name} has not signed in.`, 'Sign in with who keeps the roll.')]
    : [];

/** A fire at the end of a turnout, as it is written down. Instants in epoch milliseconds. */
export interface WatchedFire {
  title: string;
  /** Until when the watch stays; null where nobody has written down when the last spark was. */
  staysUntil: number | null;
  /** The later look: taken, said to come by whom and when, or neither. */
  look: 'taken' | { toCome: string } | null;
}

/** How a turnout stands at its end. */
export interface Closing {
  now: number;
  /** Who signed in and was not accounted for since, by name. */
  notAccountedFor: readonly string[];
  fires: readonly WatchedFire[];
}

/** What stands in the way of closing a turnout: the roll, and fires that are still watched. 29 CFR 1915.84 and 1915.504(c)(2). */
export function mayClose({ now, notAccountedFor, fires }: Closing): Finding[] {
  return [
    ...notAccountedFor.map((name) =>
      stop(
        'roll',
        `${name}: not accounted for.`,
        'See or hear each of them before the gate is locked; nobody leaves until then.',
      ),
    ),
    ...fires.flatMap((fire) => fireFinding(fire, now) ?? []),
  ];
}

function fireFinding({ title, staysUntil, look }: WatchedFire, now: number): Finding | null {
  if (staysUntil === null)
    return stop(
      'watch-record',
      `Nothing is written down of the last spark and the fire watch on “${title}”.`,
      'The watch or the lead writes it down, or that no hot work was done.',
    );
  if (now < staysUntil)
    return stop(
      'hot-work-last',
      `The fire watch on “${title}” stays another ${Math.ceil((staysUntil - now) / 60_000)} minutes.`,
      'Close the turnout after that.',
    );
  if (look === null)
    return stop(
      'watch-record',
      `Nobody has looked again at “${title}” after the watch, and nobody is down for it.`,
      'Look and write down what was found, or write down who looks and when.',
    );
  return look === 'taken'
    ? null
    : caution('watch-record', `A later look at “${title}” is still to come: ${look.toCome}.`);
}
