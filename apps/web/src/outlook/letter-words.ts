import { sayDollars } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';

/** What the letter rests on. */
export interface LetterFacts {
  vessel: string;
  organisation: string;
  signedBy: string;
  today: string;
  gate: { on: string; startTime: string; endTime: string; confirmBy?: string | null };
  gateOdds: number;
  gateWords: string;
  fallback: { on: string; extraCostCents: number; words: string } | null;
  likelyOn: string | null;
}

/** Who reads it. */
export type Reader = 'yard' | 'board' | 'insurer';

const greeting: Record<Reader, string> = {
  yard: 'To the yard that lifts her',
  board: 'To the board',
  insurer: 'To the insurer',
};

/** What keeping the gate costs on average: the fallback's extra cost as often as the gate is missed. */
export function costOfMissing(facts: Pick<LetterFacts, 'gateOdds' | 'fallback'>): number {
  return Math.round((1 - facts.gateOdds) * (facts.fallback?.extraCostCents ?? 0));
}

/** A draft to confirm or to release the slot. The director reads it, changes it, and decides. */
export function slotLetter(reader: Reader, deed: 'confirm' | 'release', facts: LetterFacts): string {
  const { gate, fallback, gateWords, likelyOn, vessel } = facts;
  const slot = `${sayDay(gate.on)}, ${gate.startTime} to ${gate.endTime}`;
  const odds = `By the crew’s own record the odds that she is ready for it are ${gateWords}.`;
  const likely = likelyOn ? ` In eight futures of ten she is ready by ${sayDay(likelyOn)}.` : '';
  const cost = fallback
    ? `The fallback on ${sayDay(fallback.on)} costs ${sayDollars(fallback.extraCostCents)} more in yard time; with these odds, missing the gate costs ${sayDollars(costOfMissing(facts))} on average. The odds of being ready for the fallback are ${fallback.words}.`
    : 'No fallback slot is booked.';
  const wish =
    deed === 'confirm'
      ? `We confirm the lift of ${vessel} on ${slot}.`
      : `We release the lift of ${vessel} on ${slot}${fallback ? `, and ask to keep the one on ${sayDay(fallback.on)}` : ''}.`;
  const last: Record<Reader, string> = {
    yard: `Please write back that you have this${gate.confirmBy ? `; the last day for it is ${sayDay(gate.confirmBy)}` : ''}.`,
    board: 'The figures are forecasts. What is decided on them stays with the board.',
    insurer:
      'Please tell us if this changes anything about cover ashore, for the lift, or for the float watch. Whether she may be lifted is for the surveyor and the yard to say on the day.',
  };
  return [
    sayDay(facts.today),
    `${greeting[reader]}:`,
    wish,
    `${odds}${likely}`,
    cost,
    last[reader],
    `${facts.signedBy}\n${facts.organisation}`,
  ].join('\n\n');
}
