import { graphql } from '../gql/gql.js';
import type { TaskQuery } from '../gql/graphql.js';

export const TaskQuestion = graphql(`
  query Task($id: ID!) {
    task(id: $id) {
      id
      version
      title
      kind
      position
      state
      held
      notBefore
      stockHold {
        fromOn
        why
      }
      crewMin
      crewEfficient
      crewMax
      leastAge
      oneGo
      setUpMinutes
      cautionLines {
        words
        basis
      }
      safetyNotice
      maySaySo
      tray {
        id
        name
      }
      estimate {
        ...EstimateWords
      }
      seats {
        id
        count
        levelWords
        skill {
          id
          name
        }
      }
      cards {
        id
        name
      }
      follows {
        ...LinkWords
      }
      leadsTo {
        ...LinkWords
      }
      ...TaskRecord
      planned {
        startsAt
        endsAt
        floatWords
        heldBy
      }
    }
  }
  fragment TaskRecord on Task {
    tallies {
      id
      on
      count
      minutes
      finished
      note
      correctsId
      correctedById
      reason
      enteredBy
      hand {
        volunteerId
        name
      }
    }
    saySos {
      id
      verdict
      note
      saidBy
      yardAt
      countBack
      minutesBack
    }
  }
  fragment LinkWords on Link {
    id
    version
    relation
    lagMinutes
    lagKind
    sentence
    before {
      id
      title
      position
      state
    }
    after {
      id
      title
      position
      state
    }
  }
  fragment EstimateWords on Estimate {
    __typename
    ... on CountEstimate {
      unit
      count
      countDone
      countLeft
      perPersonHour {
        low
        likely
        high
      }
    }
    ... on WorkEstimate {
      personMinutes {
        low
        likely
        high
      }
    }
    ... on TimeEstimate {
      minutes {
        low
        likely
        high
      }
    }
  }
`);

export type Task = NonNullable<TaskQuery['task']>;
