import { graphql } from '../gql/gql.js';
import type { PlacesQuery } from '../gql/graphql.js';

export const PlacesQuestion = graphql(`
  query Places {
    myPlaces {
      ...MyPlace
    }
    mySwings {
      id
      turnout {
        id
        on
        startTime
        endTime
        note
      }
    }
    rosterSettings {
      lateHours
    }
    openPlaces {
      useful
      standsBy
      alongside {
        volunteerId
        name
      }
      cautions {
        words
        basis
      }
      place {
        ...MyPlace
      }
    }
    safetyNotice
  }
  fragment MyPlace on Place {
    id
    state
    startsAt
    endsAt
    why
    setAside
    role
    skill {
      id
      name
    }
    teacher {
      name
    }
    turnout {
      id
      kind
      on
      startTime
      endTime
    }
    task {
      id
      title
      position
      hazards {
        code
      }
      cautionLines {
        words
        basis
      }
    }
  }
`);

export type Mine = PlacesQuery['myPlaces'][number];
export type Swing = PlacesQuery['mySwings'][number];
export type Open = PlacesQuery['openPlaces'][number];
