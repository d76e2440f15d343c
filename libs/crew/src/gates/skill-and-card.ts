import { addDays } from '@ribband/platform';
import { inWords } from '../skills/levels.js';
import type { Finding, GateRule, HeldCard } from './gate.types.js';
import { commonPractice } from './rule-book.js';

/** A card counts up to and including the day that it names. */
export function cardCountsOn(card: Pick<HeldCard, 'expiresOn'>, day: string): boolean {
  return card.expiresOn === null || day <= card.expiresOn;
}

/** A seat for a skill takes who has it at the level asked for. Common practice. */
export const skillGate: GateRule = ({ hand, seat }) => {
  if (!seat.skill) return [];
  const level = hand.levels.get(seat.skill.id) ?? 0;
  if (level >= seat.level) return [];
  return [
    {
      rule: 'skill',
      weight: 'stop',
      words: `This place asks for ${seat.skill.name}, ${inWords(seat.level)}; the record says ${inWords(level)}.`,
      remedy: 'The shipwright can sign off a level, or take a place as a hand on the same work.',
      basis: commonPractice,
    },
  ];
};

/** Cards for the work and for the seat must be held and count on the day itself. Common practice. */
export const cardGate: GateRule = ({ hand, job, seat, occasion }) => {
  const asked = new Map([...job.cards, ...seat.cards].map((card) => [card.id, card]));
  return [...asked.values()].flatMap((card): Finding[] => {
    const held = hand.cards.filter((one) => one.kindId === card.id);
    if (held.some((one) => cardCountsOn(one, occasion.on))) return [];
    const lapsed = held.map((one) => one.expiresOn ?? '').sort();
    const last = lapsed.at(-1);
    return [
      {
        rule: 'card',
        weight: 'stop',
        words: last
          ? `The card "${card.name}" lapsed on ${last}; it does not count on ${occasion.on}.`
          : `This work asks for the card "${card.name}", and none is on record.`,
        remedy: 'Show a card that counts on that day to the coordinator.',
        basis: commonPractice,
        ...(last ? { lapsedOn: last } : {}),
      },
    ];
  });
};

/** Days before a card lapses on which its holder is told. */
const noticeDays = 30;

/** A card that counts on the day and lapses soon after. Common practice. */
export const cardLapsesSoonGate: GateRule = ({ hand, job, seat, occasion }) => {
  const soon = addDays(occasion.on, noticeDays);
  return [...new Map([...job.cards, ...seat.cards].map((card) => [card.id, card])).values()].flatMap(
    (card): Finding[] => {
      const counting = hand.cards.filter((one) => one.kindId === card.id && cardCountsOn(one, occasion.on));
      if (counting.length === 0 || counting.some((one) => one.expiresOn === null || one.expiresOn > soon))
        return [];
      const last = counting
        .map((one) => one.expiresOn)
        .sort()
        .at(-1);
      return [
        {
          rule: 'card-lapses-soon',
          weight: 'caution',
          words: `The card "${card.name}" lapses on ${last}.`,
          remedy: 'Renew it in time and show it to the coordinator.',
          basis: commonPractice,
        },
      ];
    },
  );
};

/** Who is learning works beside somebody who works alone or better in the same skill. Common practice. */
export const learnerGate: GateRule = ({ hand, job, seat, occasion }) => {
  const best = (levels: ReadonlyMap<string, number>) =>
    Math.max(0, ...job.seatSkills.map((skill) => levels.get(skill.id) ?? 0));
  if (seat.skill === null || best(hand.levels) !== 1) return [];
  if (occasion.alongside.some((other) => best(other.hand.levels) >= 2)) return [];
  return [
    {
      rule: 'learner-alone',
      weight: 'stop',
      words: `Learning ${seat.skill.name} goes beside somebody who works alone in it, and nobody who does is on this work yet.`,
      remedy: 'Ask the coordinator who could be there as well.',
      basis: commonPractice,
    },
  ];
};
