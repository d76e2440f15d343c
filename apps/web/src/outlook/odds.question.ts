import { graphql } from '../gql/gql.js';
import type { OddsQuery } from '../gql/graphql.js';

export const OddsQuestion = graphql(`
  query Odds {
    outlook {
      sentence
      lastMove
      futures
      isOfPlan
      evenOn
      likelyOn
      sureOn
      gateOdds
      slots {
        slot {
          id
          on
          startTime
          endTime
          confirmBy
          extraCostCents
          word {
            word
            givenOn
            givenBy
            yardSays
          }
        }
        role
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
        slot {
          ...SlotToTell
        }
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
