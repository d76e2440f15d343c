import { graphql } from '../gql/gql.js';
import type { DaysQuery } from '../gql/graphql.js';

export const DaysQuestion = graphql(`
  query Days($id: ID!) {
    skills {
      id
      name
    }
    volunteer(id: $id) {
      id
      version
      name
      age
      phone
      wishes {
        turnoutsAMonth
        ratherNots
        wouldLearn {
          id
        }
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

export type YardSkill = DaysQuery['skills'][number];
export type Person = NonNullable<DaysQuery['volunteer']>;
