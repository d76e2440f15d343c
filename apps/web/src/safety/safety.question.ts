import { graphql } from '../gql/gql.js';
import type { SafetyQuery } from '../gql/graphql.js';

export const SafetyQuestion = graphql(`
  query Safety {
    roundsToDo {
      turnout {
        id
        on
        startTime
        endTime
      }
      items
      fires {
        taskId
        words
        mayOverride
      }
      there {
        volunteerId
        name
        arrivedAt
      }
    }
    incidents {
      id
      version
      kind
      what
      place
      who
      photograph
      reportedAt
      reportedBy
      followUp
      dueOn
      closedAt
      closedBy
      outcome
      owner {
        volunteerId
        name
      }
    }
    closingList
  }
`);

export type Incident = SafetyQuery['incidents'][number];
export type ToDo = SafetyQuery['roundsToDo'][number];
