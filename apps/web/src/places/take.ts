import { graphql } from '../gql/gql.js';
import { useKeptDeed } from '../live/kept-deeds.js';

const TakePlaceDeed = graphql(`
  mutation TakePlace($placeId: ID!, $key: ID) {
    takePlace(placeId: $placeId, key: $key) {
      __typename
      ...Refused
    }
  }
`);

/** Takes an open place, or says yes to one that I am asked to fill. */
export function useTake() {
  return useKeptDeed(TakePlaceDeed);
}
