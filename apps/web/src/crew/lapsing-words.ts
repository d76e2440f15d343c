import { list } from '../words/amounts.js';

interface Place {
  isOnly: boolean;
  othersLapsed: boolean;
  /** The day in words. */
  on: string;
}

/** What a turnout lacks once a card that a gate goes by has lapsed; nothing where somebody's counts. */
export function sayWhoIsLeft(purpose: string | null, places: readonly Place[]): string[] {
  const daysOf = (othersLapsed: boolean) => [
    ...new Set(places.flatMap((one) => (one.isOnly && one.othersLapsed === othersLapsed ? one.on : []))),
  ];
  const isAid = purpose === 'FIRST_AID';
  const only = daysOf(false);
  const nobody = daysOf(true);
  return [
    ...(only.length > 0
      ? [
          `The only ${isAid ? 'first-aider' : 'one with the card for the fire watch'} on ${list(only)}: nobody else who is down there has such a card.`,
        ]
      : []),
    ...(nobody.length > 0
      ? [
          `Nobody is left on ${list(nobody)} whose card counts for ${isAid ? 'first aid' : 'the fire watch'}: by then those of the others who are down there have lapsed as well.`,
        ]
      : []),
  ];
}
