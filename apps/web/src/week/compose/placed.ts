import type { PlacedHandInput } from '../../gql/graphql.js';

interface Place {
  key?: string | null;
  fixed: boolean;
  hand?: { volunteerId: string } | null;
}

/** As much of a week as says who is on which place. */
export interface PlacesOfWeek {
  turnouts: { work: { places: Place[] }[] }[];
}

/** Who is on which place of a week; second hands follow from the others and are left out. */
export function placedIn(week: PlacesOfWeek): PlacedHandInput[] {
  return week.turnouts.flatMap(({ work }) =>
    work.flatMap(({ places }) =>
      places.flatMap(({ key, hand, fixed }) =>
        key && hand ? [{ key, volunteerId: hand.volunteerId, fixed }] : [],
      ),
    ),
  );
}

/** A week with the marks of another one, wherever both have the same person on a place. */
export function withMarksOf<Week extends PlacesOfWeek>(week: Week, other: PlacesOfWeek): Week {
  const marks = new Map(
    placedIn(other).map(({ key, volunteerId, fixed }) => [`${key} ${volunteerId}`, fixed]),
  );
  return eachPlace(week, ({ key, hand, fixed }) =>
    key && hand ? (marks.get(`${key} ${hand.volunteerId}`) ?? fixed) : fixed,
  );
}

/** A week with one place marked to be kept or not. */
export function marked<Week extends PlacesOfWeek>(week: Week, key: string, fixed: boolean): Week {
  return eachPlace(week, (place) => (place.key === key ? fixed : place.fixed));
}

function eachPlace<Week extends PlacesOfWeek>(week: Week, isFixed: (place: Place) => boolean): Week {
  return {
    ...week,
    turnouts: week.turnouts.map((turnout) => ({
      ...turnout,
      work: turnout.work.map((each) => ({
        ...each,
        places: each.places.map((place) => ({ ...place, fixed: isFixed(place) })),
      })),
    })),
  };
}
