import { sayDollars } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';

/** What the letter rests on. */
export interface LetterFacts {
  vessel: string;
  organisation: string;
  signedBy: string;
  today: string;
  /** The slot that is aimed at, and when it was confirmed. */
  gate: {
    on: string;
    startTime: string;
    endTime: string;
    confirmBy: string | null;
    confirmed: { on: string; yardSays: string | null } | null;
  };
  /** The slot before it that was given back; null where none was. */
  released: { on: string; releasedOn: string; yardSays: string | null } | null;
  gateOdds: number;
  gateWords: string;
  /** The next slot that is left. */
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

/** What keeping the gate costs on average: the next slot's extra cost as often as the gate is missed. */
export function costOfMissing(facts: Pick<LetterFacts, 'gateOdds' | 'fallback'>): number {
  return Math.round((1 - facts.gateOdds) * (facts.fallback?.extraCostCents ?? 0));
}

/** A draft to confirm or to release the slot. The director reads it, changes it, and decides. */
export function slotLetter(reader: Reader, deed: 'confirm' | 'release', facts: LetterFacts): string {
  const { gate, fallback, gateWords, likelyOn } = facts;
  const slot = `${sayDay(gate.on)}, ${gate.startTime} to ${gate.endTime}`;
  const odds = `By the crew’s own record the odds that she is ready for it are ${gateWords}.`;
  const likely = likelyOn ? ` In eight futures of ten she is ready by ${sayDay(likelyOn)}.` : '';
  const cost = fallback
    ? `The next slot, on ${sayDay(fallback.on)}, costs ${sayDollars(fallback.extraCostCents)} more in yard time; with these odds, missing the gate costs ${sayDollars(costOfMissing(facts))} on average. The odds of being ready for that one are ${fallback.words}.`
    : 'No later slot is booked.';
  const wish = deed === 'confirm' ? confirming(facts, slot) : releasing(facts, slot);
  const last: Record<Reader, string> = {
    yard: `Please write back that you have this${gate.confirmed && deed === 'confirm' ? '' : lastDay(gate)}.`,
    board: 'The figures are forecasts. What is decided on them stays with the board.',
    insurer:
      'Please tell us if this changes anything about cover ashore, for the lift, or for the float watch. Whether she may be lifted is for the surveyor and the yard to say on the day.',
  };
  return [
    sayDay(facts.today),
    `${greeting[reader]}:`,
    [wish, ...before(facts)].join(' '),
    `${odds}${likely}`,
    cost,
    last[reader],
    `${facts.signedBy}\n${facts.organisation}`,
  ].join('\n\n');
}

function confirming({ vessel, gate: { confirmed } }: LetterFacts, slot: string): string {
  if (!confirmed) return `We confirm the lift of ${vessel} on ${slot}.`;
  return `We confirmed the lift of ${vessel} on ${slot}, on ${sayDay(confirmed.on)}, and it stands.${answer(confirmed.yardSays)}`;
}

function releasing({ vessel, gate: { confirmed }, fallback }: LetterFacts, slot: string): string {
  const keep = fallback ? `, and ask to keep the one on ${sayDay(fallback.on)}` : '';
  return confirmed
    ? `We confirmed the lift of ${vessel} on ${slot}, on ${sayDay(confirmed.on)}. We now release it${keep}.`
    : `We release the lift of ${vessel} on ${slot}${keep}.`;
}

/** What was given back before. */
function before({ released }: LetterFacts): string[] {
  if (!released) return [];
  const { on, releasedOn, yardSays } = released;
  return [`The lift on ${sayDay(on)} was released on ${sayDay(releasedOn)}.${answer(yardSays)}`];
}

const answer = (yardSays: string | null) => (yardSays ? ` The yard’s answer: “${yardSays}”` : '');

const lastDay = ({ confirmBy }: LetterFacts['gate']) =>
  confirmBy ? `; the last day for it is ${sayDay(confirmBy)}` : '';
