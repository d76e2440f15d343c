import { graphql } from '../gql/gql.js';
import type { MorningQuery, MorningSheetQuery } from '../gql/graphql.js';

export const CallDayQuestion = graphql(`
  query CallDay($from: LocalDate!, $to: LocalDate!) {
    turnouts(from: $from, to: $to) {
      id
      on
      startTime
      endTime
      cancelled
      note
    }
  }
`);

export const MorningSheetQuestion = graphql(`
  query MorningSheet($turnoutId: ID!) {
    morningSheet(turnoutId: $turnoutId) {
      revision
      staleHours
      asksFirstAider
      callVersion
      turnout {
        id
        kind
        on
        startTime
        endTime
        cancelled
        cancelReason
        note
      }
      people {
        number
        code
        expected
        isKnownAdult
        isMinor
        isFirstAider
        hand {
          volunteerId
          name
        }
      }
      work {
        startsAt
        endsAt
        closed
        setAside
        postedIds
        roles {
          role
          volunteerId
        }
        cautions {
          words
          basis
        }
        task {
          id
          title
          position
          crewMin
          crewMax
        }
        seats {
          skillId
          skillName
          level
          count
        }
        carriers
        watch {
          seats
        }
        verdicts {
          volunteerId
          mayAsHand
          seats
          learns
          worksAlone
          mayWatch
        }
      }
    }
    turnoutCall(turnoutId: $turnoutId) {
      version
      calledAt
      calledBy
      presentIds
      visitors
      turnedAway
      fallen {
        why
        task {
          id
          title
        }
      }
    }
    safetyNotice
  }
`);

export const MorningQuestion = graphql(`
  query Morning($turnoutId: ID!, $presentIds: [ID!]!) {
    morning(turnoutId: $turnoutId, presentIds: $presentIds) {
      version
      readyAt
      work {
        cautions
        setAside
        task {
          id
          title
          position
        }
        crew {
          level
          role
          how
          startsAt
          endsAt
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
      fallen {
        why
        task {
          id
          title
        }
      }
      learners
      idle {
        volunteerId
        name
      }
    }
  }
`);

export type Sheet = MorningSheetQuery['morningSheet'];
export type LastCall = NonNullable<MorningSheetQuery['turnoutCall']>;
export type YardMorning = MorningQuery['morning'];
