import { graphql } from '../gql/gql.js';
import type { MarksQuery } from '../gql/graphql.js';

export const MarksQuestion = graphql(`
  query Marks {
    witnessMarks {
      mark {
        id
        name
        everyDays
      }
      drift
      says
      held
      due
      dueOn
      millimetresAWeek
      readings {
        id
        on
        time
        reader
        millimetres
        struckBy
      }
      lifted {
        by
        reason
        liftedAt
      }
    }
  }
`);

export type Mark = MarksQuery['witnessMarks'][number];
