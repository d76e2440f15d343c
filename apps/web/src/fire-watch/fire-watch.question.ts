import { graphql } from '../gql/gql.js';
import type { FireWatchesQuery } from '../gql/graphql.js';

export const FireWatchesQuestion = graphql(`
  query FireWatches($turnoutId: ID) {
    fireWatches(turnoutId: $turnoutId) {
      turnout {
        id
        on
        startTime
        endTime
      }
      task {
        id
        title
        position
        cautionLines {
          words
          basis
        }
      }
      minutes
      staysUntil
      hasCard
      missing
      mayWrite
      couldWatch {
        volunteerId
        name
      }
      written {
        version
        notLit
        lastSparkAt
        lookBy
        lookDueAt
        lookedAt
        found
        reason
        writtenBy
        writtenAt
        watch {
          volunteerId
          name
        }
      }
    }
    safetyNotice
  }
`);

export const WriteFireWatchDeed = graphql(`
  mutation WriteFireWatch($input: FireWatchInput!) {
    writeFireWatch(input: $input) {
      __typename
      ...Refused
    }
  }
`);

export const PeopleToWatchQuestion = graphql(`
  query PeopleToWatch {
    volunteers(first: 200) {
      edges {
        node {
          id
          name
        }
      }
    }
  }
`);

export type Fire = FireWatchesQuery['fireWatches'][number];
export type Written = Fire['written'][number];
