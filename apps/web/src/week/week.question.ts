import { graphql } from '../gql/gql.js';
import type { WeekQuery } from '../gql/graphql.js';

export const WeekQuestion = graphql(`
  query Week($weekOf: LocalDate) {
    weekProposal(weekOf: $weekOf) {
      weekOf
      planId
      posted
      turnouts {
        ...Proposed
      }
    }
    safetyNotice
  }
  fragment Proposed on ProposedTurnout {
    notices
    odds {
      taskId
      words
    }
    unplaced {
      volunteerId
      name
    }
    turnout {
      ...TurnoutWithPlaces
    }
    work {
      startsAt
      endsAt
      gaps
      cautions
      task {
        id
        title
        position
      }
      crew {
        why
        hand {
          volunteerId
          name
        }
        skill {
          id
          name
        }
      }
    }
  }
  fragment TurnoutWithPlaces on Turnout {
    id
    on
    startTime
    endTime
    note
    cancelled
    cancelReason
    version
    places {
      id
      state
      why
      startsAt
      endsAt
      task {
        id
        title
        position
        crewMin
        cautionLines {
          words
        }
      }
      hand {
        volunteerId
        name
      }
      skill {
        id
        name
      }
    }
  }
`);

export type WeekOfTurnouts = WeekQuery['weekProposal'];
export type Turnout = WeekOfTurnouts['turnouts'][number];
