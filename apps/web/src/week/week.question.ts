import { graphql } from '../gql/gql.js';
import type { TriedWeekQuery, WeekQuery } from '../gql/graphql.js';

export const WeekQuestion = graphql(`
  query Week($weekOf: LocalDate, $fixed: [PlacedHandInput!]) {
    weekProposal(weekOf: $weekOf, fixed: $fixed) {
      ...WeekAsAWhole
      turnouts {
        ...Composed
        turnout {
          ...TurnoutWithPlaces
        }
      }
    }
    safetyNotice
  }
  fragment WeekAsAWhole on WeekProposal {
    weekOf
    planId
    posted
    notices
    draft {
      keptBy
      keptAt
    }
    changes {
      at
      who
      what
    }
    crew {
      volunteerId
      name
    }
  }
  fragment Composed on ProposedTurnout {
    notices
    odds {
      taskId
      words
    }
    unplaced {
      volunteerId
      name
    }
    swingHands {
      volunteerId
      name
    }
    turnout {
      ...TurnoutItself
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
      places {
        key
        level
        startsAt
        endsAt
        why
        fixed
        hand {
          volunteerId
          name
        }
        skill {
          id
          name
        }
        beside {
          name
        }
      }
    }
  }
  fragment TurnoutItself on Turnout {
    id
    on
    startTime
    endTime
    note
    cancelled
    cancelReason
    version
  }
  fragment TurnoutWithPlaces on Turnout {
    swingHands {
      id
      leftAt
      hand {
        volunteerId
        name
      }
    }
    places {
      id
      state
      why
      setAside
      startsAt
      endsAt
      teacher {
        name
      }
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

/** A week without what is posted of it: what somebody puts together. */
export type ComposedWeek = TriedWeekQuery['triedWeek']['week'];
export type ComposedTurnout = ComposedWeek['turnouts'][number];
export type Work = ComposedTurnout['work'][number];
export type ProposedPlace = Work['places'][number];
