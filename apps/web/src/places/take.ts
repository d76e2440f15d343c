import { graphql } from '../gql/gql.js';
import { useDeed } from '../live/deed.js';

const TakePlaceDeed = graphql(`
  mutation TakePlace($placeId: ID!) {
    takePlace(placeId: $placeId) {
      __typename
      ...Refused
    }
  }
`);

/** Takes an open place, or says yes to one that I am asked to fill. */
export function useTake() {
  return useDeed(TakePlaceDeed);
}
