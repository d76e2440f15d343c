import { graphql } from '../../gql/gql.js';
import type { TriedWeekQuery } from '../../gql/graphql.js';

export const TriedWeekQuestion = graphql(`
  query TriedWeek($weekOf: LocalDate!, $planId: ID!, $places: [PlacedHandInput!]!, $put: PutInput) {
    triedWeek(weekOf: $weekOf, planId: $planId, places: $places, put: $put) {
      breaks
      odds {
        turnoutId
        taskId
        before
        after
      }
      week {
        ...WeekAsAWhole
        turnouts {
          ...Composed
        }
      }
    }
  }
`);

export const KeepDraftDeed = graphql(`
  mutation KeepWeekDraft($weekOf: LocalDate!, $planId: ID!, $places: [PlacedHandInput!]!) {
    keepWeekDraft(weekOf: $weekOf, planId: $planId, places: $places) {
      __typename
      ... on KeepWeekDraftPayload {
        draft {
          keptAt
        }
      }
      ...Refused
    }
  }
`);

export type Tried = TriedWeekQuery['triedWeek'];
