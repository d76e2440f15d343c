import { graphql } from '../gql/gql.js';

/** The parts of a scope that the page says; named in other documents. @public */
export const ScopeSeen = graphql(`
  fragment ScopeSeen on Scope {
    counts {
      what
      count
    }
    planksOff {
      element
      name
      nails
    }
    joints {
      piece
      at
      original
      seenFrom
    }
    openings {
      aim
      chosen
      hours
      planksOff
      cut
    }
    departures
    temporary
    doubtful
    sisterFaults
    limitsInTheWay {
      limit
      frames
    }
  }
`);

export const SurveyQuestion = graphql(`
  query SurveyPage {
    hullOutline {
      version
      outline
      changedBy
      changedAt
    }
    survey {
      version
      survey
      changedBy
      changedAt
    }
    scope {
      ...ScopeSeen
    }
    methods {
      version
      methods
      changedBy
      changedAt
    }
  }
`);

export const PreviewWorkQuestion = graphql(`
  query PreviewWork($change: WorkChangeInput!) {
    previewWork(change: $change) {
      __typename
      ... on WorkPreview {
        scope {
          ...ScopeSeen
        }
        added {
          ref
          title
        }
        changed {
          ref
          title
          fields
        }
        dropped {
          ref
          title
        }
        kept
        linksAdded
        linksDropped
        hoursBefore
        hoursAfter
      }
      ...Refused
    }
  }
`);

export const ApplyWorkDeed = graphql(`
  mutation ApplyWork($change: WorkChangeInput!) {
    applyWork(change: $change) {
      __typename
      ... on WorkPayload {
        surveyVersion
      }
      ...Refused
    }
  }
`);
