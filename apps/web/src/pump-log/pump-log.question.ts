import { graphql } from '../gql/gql.js';
import type { PumpLogQuery } from '../gql/graphql.js';

export const PumpLogQuestion = graphql(`
  query PumpLog($turnoutId: ID) {
    pumpLog(turnoutId: $turnoutId) {
      mayWrite
      warnings
      turnout {
        id
        on
        startTime
        endTime
      }
      trends {
        measure
        goes
        since
        latestAt
        from
        latest
        perHour
      }
      lines {
        struck
        now {
          ...PumpWords
        }
        before {
          ...PumpWords
        }
      }
    }
    safetyNotice
  }
  fragment PumpWords on PumpWritten {
    id
    readAt
    depthMillimetres
    strokes
    minutes
    doneBy
    remark
    reason
    writtenBy
    writtenAt
  }
`);

export const WritePumpEntryDeed = graphql(`
  mutation WritePumpEntry($input: PumpEntryInput!) {
    writePumpEntry(input: $input) {
      __typename
      ...Refused
    }
  }
`);

export type PumpLog = NonNullable<PumpLogQuery['pumpLog']>;
export type PumpTrend = PumpLog['trends'][number];
export type Written = PumpLog['lines'][number]['now'];
