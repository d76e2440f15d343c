import { graphql } from '../gql/gql.js';
import type { ProposedFragment } from '../gql/graphql.js';

/** The work that can be done on watch: what is called a watch. */
export const WatchWorkQuestion = graphql(`
  query WatchWork {
    tasks(first: 50, words: "watch") {
      nodes {
        id
        title
        kind
        seats {
          level
          skill {
            id
          }
        }
      }
    }
    skills {
      id
      name
    }
  }
`);

export const WatchRosterQuestion = graphql(`
  query WatchRoster($mostEach: Int!) {
    watchProposal(mostEach: $mostEach) {
      ...Proposed
    }
    safetyNotice
  }
  fragment Proposed on ProposedWatch {
    notices
    turnout {
      id
      on
      startTime
      endTime
      version
      note
    }
    places {
      placeId
      role
      level
      taken
      why
      skill {
        id
        name
      }
      hand {
        volunteerId
        name
      }
      could {
        volunteerId
        name
      }
    }
  }
`);

export const LayOnWatchesDeed = graphql(`
  mutation LayOnWatches($input: WatchesInput!) {
    layOnWatches(input: $input) {
      __typename
      ... on WatchesPayload {
        watches {
          id
        }
      }
      ...Refused
    }
  }
`);

export const CallOffWatchesDeed = graphql(`
  mutation CallOffWatches($reason: String!) {
    callOffWatches(reason: $reason) {
      __typename
      ... on WatchesPayload {
        watches {
          id
        }
      }
      ...Refused
    }
  }
`);

export const PostWatchesDeed = graphql(`
  mutation PostWatches($places: [WatchHandInput!]!) {
    postWatches(places: $places) {
      __typename
      ... on PostWatchesPayload {
        turnedAway
      }
      ...Refused
    }
  }
`);

export type Watch = ProposedFragment;
export type WatchPlace = Watch['places'][number];
