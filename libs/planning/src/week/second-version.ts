import type { CrewHand } from '@ribband/crew';
import { type GateBook, type PlaceEntity } from '@ribband/roster';
import type { Coming } from '../beliefs/coming.js';

/** A posted turnout as it would stand without one person. */
export interface SecondVersion {
  volunteerId: string;
  /** Their places, each with who steps in; null where nobody who is expected may. */
  places: { place: PlaceEntity; instead: string | null }[];
  /** Who could then not stay, and why. */
  leftAlone: { volunteerId: string; taskId: string; words: string[] }[];
  /** Whom to ring: who may do it and has no place then, the most useful first; at most three. */
  ring: { volunteerId: string; taskIds: string[]; saysTheyCome: boolean; standsBy: boolean }[];
}

/** What a second version is made from: one turnout's places, all the crew, and who said they come to it. */
export interface AtTurnout {
  places: readonly PlaceEntity[];
  hands: readonly CrewHand[];
  expectedIds: ReadonlySet<string>;
  /** Who stands by: asked before all others. */
  swingIds: ReadonlySet<string>;
  coming: Pick<Coming, 'chanceOf'>;
  book: Pick<GateBook, 'findings'>;
}

const mostToRing = 3;

/**
 * The turnout without somebody. Their places never overlap, so whoever steps in on one is free for the next as well:
 * each is filled by itself, from those who come anyway: who stands by first, then the one with the fewest skills so
 * that rare ones stay free. Nobody else is moved.
 */
export function withoutHand(
  volunteerId: string,
  { places, hands, expectedIds, swingIds, coming, book }: AtTurnout,
): SecondVersion {
  const standing = places.filter((place) => place.state !== 'left' && place.volunteerId !== null);
  const theirs = standing.filter((place) => place.volunteerId === volunteerId);
  const others = standing.filter((place) => place.volunteerId !== volunteerId);
  const saidNo = new Set(
    places.flatMap((place) => (place.state === 'left' ? (place.volunteerId ?? []) : [])),
  );
  const free = hands.filter((hand) => hand.id !== volunteerId && !saidNo.has(hand.id));
  const stops = (id: string, place: PlaceEntity, company: readonly PlaceEntity[]) =>
    book.findings(id, place, company).filter(({ weight }) => weight === 'stop');
  const may = (hand: CrewHand, place: PlaceEntity) =>
    !others.some((other) => other.volunteerId === hand.id && overlaps(other, place)) &&
    stops(hand.id, place, others).length === 0;
  const standsBy = (id: string) => Number(swingIds.has(id));
  const bySpareness = [...free].sort(
    (a, b) => standsBy(b.id) - standsBy(a.id) || skillsOf(a) - skillsOf(b) || a.id.localeCompare(b.id),
  );

  const filled = theirs.map((place) => ({
    place,
    instead: bySpareness.find((hand) => expectedIds.has(hand.id) && may(hand, place))?.id ?? null,
  }));
  const company = [
    ...others,
    ...filled.flatMap(({ place, instead }) => (instead === null ? [] : [{ ...place, volunteerId: instead }])),
  ];
  const leftAlone = others.flatMap((place) => {
    const id = place.volunteerId ?? '';
    const before = new Set(stops(id, place, standing).map(({ rule }) => rule));
    const words = stops(id, place, company)
      .filter(({ rule }) => !before.has(rule))
      .map((finding) => finding.words);
    return words.length > 0 ? [{ volunteerId: id, taskId: place.taskId, words }] : [];
  });
  const steppingIn = new Set(filled.map(({ instead }) => instead));
  const ring = free
    .filter((hand) => !steppingIn.has(hand.id) && !others.some(({ volunteerId: id }) => id === hand.id))
    .map((hand) => ({ hand, can: filled.filter(({ place }) => may(hand, place)) }))
    .filter(({ can }) => can.length > 0)
    .map(({ hand, can }) => ({
      volunteerId: hand.id,
      taskIds: [...new Set(can.map(({ place }) => place.taskId))],
      saysTheyCome: expectedIds.has(hand.id),
      standsBy: swingIds.has(hand.id),
      gaps: can.filter(({ instead }) => instead === null).length,
      chance: coming.chanceOf(hand.id),
    }))
    .sort(
      (a, b) =>
        b.gaps - a.gaps ||
        Number(b.standsBy) - Number(a.standsBy) ||
        Number(b.saysTheyCome) - Number(a.saysTheyCome) ||
        b.chance - a.chance ||
        a.volunteerId.localeCompare(b.volunteerId),
    )
    .slice(0, mostToRing)
    .map(({ gaps: _gaps, chance: _chance, ...one }) => one);
  return { volunteerId, places: filled, leftAlone, ring };
}

const overlaps = (a: PlaceEntity, b: PlaceEntity): boolean => a.startsAt < b.endsAt && b.startsAt < a.endsAt;

/** Skills at which somebody works alone. */
const skillsOf = ({ levels }: CrewHand): number => [...levels.values()].filter((level) => level >= 2).length;
