import { comesToWatch, type CrewHand, groupedBy, hazardsAvoided } from '@ribband/crew';
import { termsOf } from '@ribband/engine';
import { type GateBook, overlap, type PlaceEntity, type TurnoutEntity } from '@ribband/roster';
import type { WatchFacts } from './watch-roster.js';

/** Most watches that one person may be proposed for. */
export const mostOfAll = 12;

/** As a place asks for it. */
export const seatOf = (place: PlaceEntity) => {
  const { turnoutId, taskId, skillId, level, role, cardKindId, startsAt, endsAt } = place;
  return { turnoutId, taskId, skillId, level, role, cardKindId, startsAt, endsAt };
};

/** What watches, or all-hands days, are rostered from. */
interface Read {
  watches: readonly TurnoutEntity[];
  /** Those that somebody left among them. */
  all: readonly PlaceEntity[];
  hands: readonly CrewHand[];
  book: GateBook;
  zone: string;
  /** Holidays. */
  closed: ReadonlySet<string>;
  elsewhere: readonly PlaceEntity[];
}

/** Who may take which place, with what speaks against each. */
export function factsOf({ watches, all, hands, book, zone, closed, elsewhere }: Read): WatchFacts {
  const byId = new Map(all.map((place) => [place.id, place]));
  const watchOf = new Map(watches.map((watch) => [watch.id, watch]));
  const longest = Math.max(0, ...watches.map(({ startsAt, endsAt }) => (endsAt - startsAt) / 60_000));
  const skills = new Map(all.flatMap(({ skillId, level }) => (skillId === null ? [] : [[skillId, level]])));
  const isSkilled = (hand: CrewHand): boolean =>
    [...skills].some(([skillId, level]) => (hand.levels.get(skillId) ?? 0) >= level);
  const skilled = hands.filter(isSkilled).length;
  const comes = new Map<string, boolean>();
  const comesTo = (hand: CrewHand, { id, heldOn, startsAt, endsAt }: TurnoutEntity): boolean => {
    const key = `${hand.id} ${id}`;
    const known =
      comes.get(key) ??
      comesToWatch(hand.rules, hand.exceptions, { id, on: heldOn, startsAt, endsAt }, zone, closed);
    comes.set(key, known);
    return known;
  };
  const ids = hands.map(({ id }) => id);
  const whose = ({ volunteerId }: PlaceEntity): string => volunteerId ?? '';
  const left = groupedBy(
    ids,
    all.filter(({ state }) => state === 'left'),
    whose,
  );
  const busy = groupedBy(ids, elsewhere, whose);
  const may = (hand: CrewHand, person: number, place: PlaceEntity): boolean => {
    const watch = watchOf.get(place.turnoutId);
    const minutes = (place.endsAt - place.startsAt) / 60_000;
    if (!watch || minutes > Math.min(hand.minutesATurnout ?? Infinity, hand.minutesAWeek ?? Infinity))
      return false;
    if (left[person]?.some(({ turnoutId }) => turnoutId === watch.id)) return false;
    if (busy[person]?.some((one) => overlap(one, place))) return false;
    const hazards = book.job(place.taskId)?.job.hazards ?? [];
    const avoided = hazardsAvoided(hand.ratherNots);
    if (hazards.some((hazard) => avoided.has(hazard)) || !comesTo(hand, watch)) return false;
    return [
      ...book.ownFindings(hand.id, place),
      ...book.findings(hand.id, place, []).filter(({ rule }) => rule === 'rest' || rule === 'hours-a-shift'),
    ].every(({ weight }) => weight !== 'stop');
  };
  const candidates = new Map<string, ReturnType<WatchFacts['may']>>();
  return {
    most: hands.map(({ minutesAWeek }) =>
      minutesAWeek === null || longest === 0 ? mostOfAll : Math.floor(minutesAWeek / longest),
    ),
    may(seat) {
      const place = byId.get(seat.placeId);
      if (!place) return [];
      const known =
        candidates.get(seat.placeId) ??
        hands.flatMap((hand, person) => {
          if (!may(hand, person, place)) return [];
          const others = place.volunteerId !== null && place.volunteerId !== hand.id;
          const terms = termsOf({
            ...{
              othersAsked: others,
              endsLesson: false,
              knowsIt: null,
              dullBefore: 0,
              minutesLost: 0,
              planned: true,
            },
            rarestShared: place.skillId === null && isSkilled(hand) ? skilled : null,
            levelsOver:
              place.skillId === null ? 0 : Math.max(0, (hand.levels.get(place.skillId) ?? 0) - place.level),
          });
          return [{ person, terms }];
        });
      candidates.set(seat.placeId, known);
      return known;
    },
    stopped(held, asked) {
      const seated = held.flatMap(({ seat, person }) => {
        const place = byId.get(seat.placeId);
        return place ? [{ ...seatOf(place), volunteerId: hands[person]?.id ?? null }] : [];
      });
      return seated
        .slice(0, asked)
        .map((own) =>
          book.findings(own.volunteerId ?? '', own, seated).some(({ weight }) => weight === 'stop'),
        );
    },
  };
}
