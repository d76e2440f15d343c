import { cardCountsOn, type CardKind } from '@ribband/crew';

/** A card as somebody has shown it. */
export interface ShownCard {
  id: string;
  volunteerId: string;
  kindId: string;
  /** Last day on which it counts; null where it does not lapse. */
  expiresOn: string | null;
}

/** Work that asks for cards: of everybody, or of who sits on a seat. */
export interface CardWork {
  cardKindIds: readonly string[];
  seats: readonly { skillId: string; level: number; cardKindIds: readonly string[] }[];
}

/**
 * Cards that lapse by a day or have lapsed, the earliest first: of each person and kind the one that counts longest, so
 * that one that was renewed is not told of.
 */
export function lapsing<C extends ShownCard>(cards: readonly C[], by: string): (C & { expiresOn: string })[] {
  const longest = new Map<string, C>();
  for (const card of cards) {
    const key = `${card.volunteerId} ${card.kindId}`;
    const known = longest.get(key);
    if (!known || (known.expiresOn !== null && (card.expiresOn === null || card.expiresOn > known.expiresOn)))
      longest.set(key, card);
  }
  return [...longest.values()]
    .flatMap((card) => {
      const { expiresOn } = card;
      return expiresOn !== null && expiresOn <= by ? [{ ...card, expiresOn }] : [];
    })
    .sort((a, b) => a.expiresOn.localeCompare(b.expiresOn) || a.id.localeCompare(b.id));
}

/** Whether who sits on a seat, or works as a hand where it is null, must hold the card. */
export function seatAsks(
  work: CardWork,
  kindId: string,
  at: { skillId: string | null; level: number },
): boolean {
  return (
    work.cardKindIds.includes(kindId) ||
    work.seats.some(
      ({ skillId, level, cardKindIds }) =>
        skillId === at.skillId && level === at.level && cardKindIds.includes(kindId),
    )
  );
}

/**
 * Whether a gate may go by the card of somebody who has a place: who gives first aid does so at every turnout, the watch
 * over hot work stands where there is some, whatever the work itself asks for.
 */
export function gateGoesBy(purpose: CardKind['purpose'], hazards: readonly string[]): boolean {
  return purpose === 'first-aid' || (purpose === 'hot-work-watch' && hazards.includes('hot-work'));
}

/** Whether somebody could do this work with the card and not without: any place of it, or a seat that they have the skill for. */
export function workAsks(work: CardWork, kindId: string, levels: ReadonlyMap<string, number>): boolean {
  return (
    work.cardKindIds.includes(kindId) ||
    work.seats.some(
      ({ skillId, level, cardKindIds }) =>
        cardKindIds.includes(kindId) && (levels.get(skillId) ?? 0) >= Math.max(1, level),
    )
  );
}

/** Somebody's place at a turnout, as far as company goes. */
export interface CompanyPlace {
  volunteerId: string | null;
  turnoutId: string;
  taskId: string;
}

/** The company of a place, and the cards of one purpose: all that were shown, and their kinds. */
interface AmongCards {
  places: readonly CompanyPlace[];
  cards: readonly ShownCard[];
  kindIds: ReadonlySet<string>;
}

/**
 * Whether nobody is left whose card of a purpose counts on the day of a place: of those at the turnout for first aid, of
 * those on the same work for the watch. Another card of the person's own that counts is one as well.
 */
export function leavesNobody(
  purpose: CardKind['purpose'],
  place: CompanyPlace,
  on: string,
  among: AmongCards,
): boolean {
  if (purpose !== 'first-aid' && purpose !== 'hot-work-watch') return false;
  const ids = companyOf(purpose, place, among.places);
  if (place.volunteerId !== null) ids.add(place.volunteerId);
  return !among.cards.some(
    (card) => ids.has(card.volunteerId) && among.kindIds.has(card.kindId) && cardCountsOn(card, on),
  );
}

/** Whether somebody else of that company holds such a card, whether it counts that day or not. */
export function othersHoldOne(purpose: CardKind['purpose'], place: CompanyPlace, among: AmongCards): boolean {
  const ids = companyOf(purpose, place, among.places);
  if (place.volunteerId !== null) ids.delete(place.volunteerId);
  return among.cards.some(({ volunteerId, kindId }) => ids.has(volunteerId) && among.kindIds.has(kindId));
}

const companyOf = (
  purpose: CardKind['purpose'],
  place: CompanyPlace,
  places: readonly CompanyPlace[],
): Set<string> =>
  new Set(
    places.flatMap(({ turnoutId, taskId, volunteerId }) =>
      turnoutId === place.turnoutId && (purpose === 'first-aid' || taskId === place.taskId)
        ? (volunteerId ?? [])
        : [],
    ),
  );
