import { graphql } from '../gql/gql.js';
import type { StopsQuery, StopsOfTurnoutQuery } from '../gql/graphql.js';

export const StopsOfTurnoutQuestion = graphql(`
  query StopsOfTurnout($id: ID!) {
    node(id: $id) {
      __typename
      ... on Turnout {
        id
        on
        startTime
        endTime
        places {
          id
          state
          task {
            id
            title
          }
          hand {
            volunteerId
          }
        }
      }
    }
    stopOverrides(turnoutId: $id) {
      id
      stopped
      reason
      grantedBy
      grantedAt
      withdrawnAt
      withdrawnBy
      task {
        id
        title
      }
      hand {
        volunteerId
        name
      }
    }
    volunteers(first: 200) {
      edges {
        node {
          id
          name
        }
      }
    }
    safetyNotice
  }
`);

export const StopsQuestion = graphql(`
  query Stops($turnoutId: ID!, $taskId: ID!, $volunteerId: ID!) {
    stopsFor(turnoutId: $turnoutId, taskId: $taskId, volunteerId: $volunteerId) {
      rule
      words
      remedy
      setAsideBy
      mayOverride
    }
  }
`);

export const OverrideStopDeed = graphql(`
  mutation OverrideStop($input: OverrideStopInput!) {
    overrideStop(input: $input) {
      __typename
      ...Refused
    }
  }
`);

export const WithdrawStopOverrideDeed = graphql(`
  mutation WithdrawStopOverride($id: ID!) {
    withdrawStopOverride(id: $id) {
      __typename
      ...Refused
    }
  }
`);

export type Overridden = StopsOfTurnoutQuery['stopOverrides'][number];
export type FoundStop = StopsQuery['stopsFor'][number];
export type StopTurnout = Extract<NonNullable<StopsOfTurnoutQuery['node']>, { __typename: 'Turnout' }>;
