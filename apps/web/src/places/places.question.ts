import { graphql } from '../gql/gql.js';
import type { PlacesQuery } from '../gql/graphql.js';

export const PlacesQuestion = graphql(`
  query Places {
    myPlaces {
      ...MyPlace
    }
    rosterSettings {
      lateHours
    }
    openPlaces {
      useful
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
    skill {
      id
      name
    }
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
  }
`);

export type Mine = PlacesQuery['myPlaces'][number];
export type Open = PlacesQuery['openPlaces'][number];
