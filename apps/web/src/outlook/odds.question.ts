import { graphql } from '../gql/gql.js';
import type { OddsQuery } from '../gql/graphql.js';

export const OddsQuestion = graphql(`
  query Odds {
    outlook {
      sentence
      futures
      isOfPlan
      evenOn
      likelyOn
      sureOn
      gateOdds
      slots {
        slot {
          id
          kind
          on
          confirmBy
          extraCostCents
        }
        odds
        words
      }
      spread
      decisiveWeeks
      trend {
        sentence
        marks {
          on
          likelyOn
          gateOdds
          reasons
        }
      }
      nextHand {
        what
        gains
      }
      decisions {
        on
        words
        isLate
      }
      paces {
        kind
        name
        pace
        sentence
        pinnedWhy
      }
    }
  }
`);

export type Odds = NonNullable<OddsQuery['outlook']>;
