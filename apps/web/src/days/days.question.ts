import { graphql } from '../gql/gql.js';
import type { DaysQuery } from '../gql/graphql.js';

export const DaysQuestion = graphql(`
  query Days($id: ID!) {
    volunteer(id: $id) {
      id
      version
      name
      age
      wishes {
        turnoutsAMonth
        ratherNots
      }
      consents {
        id
        guardianName
        kinds
        how
        givenOn
        writtenBy
        withdrawnOn
      }
      skills {
        level
        levelWords
        signedOffBy
        skill {
          id
          name
        }
      }
      cards {
        expiresOn
        countsToday
        issuer
        kind {
          id
          name
        }
      }
      availability {
        rules {
          rule
          startsOn
          untilOn
          from
          to
        }
        exceptions {
          fromOn
          toOn
          canCome
          from
          to
        }
      }
    }
  }
`);

export type Person = NonNullable<DaysQuery['volunteer']>;
