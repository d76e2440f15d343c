import { graphql } from '../gql/gql.js';
import type { HoursEntryWordsFragment } from '../gql/graphql.js';

/**
 * What each list of hours shows of an entry. Named in other documents, where the generator of types finds it.
 * @public
 */
export const HoursWords = graphql(`
  fragment HoursEntryWords on HoursEntry {
    id
    on
    startsAt
    endsAt
    minutes
    way
    note
    kind
    enteredBy
    endedBy
    reason
    isClosed
    hand {
      volunteerId
      name
    }
    task {
      id
      title
    }
    before {
      id
      startsAt
      endsAt
      enteredBy
    }
  }
`);

export type Entry = HoursEntryWordsFragment;

export const SignOnDeed = graphql(`
  mutation SignOn($taskId: ID, $from: LocalTime, $volunteerId: ID) {
    signOn(taskId: $taskId, from: $from, volunteerId: $volunteerId) {
      __typename
      ...Refused
    }
  }
`);

export const SignOffDeed = graphql(`
  mutation SignOff($entryId: ID!, $to: LocalTime) {
    signOff(entryId: $entryId, to: $to) {
      __typename
      ... on HoursPayload {
        entries {
          id
          minutes
        }
      }
      ...Refused
    }
  }
`);

export const CorrectHoursDeed = graphql(`
  mutation CorrectHours($entryId: ID!, $right: RightHoursInput, $reason: String!) {
    correctHours(entryId: $entryId, right: $right, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

export const AdjustHoursDeed = graphql(`
  mutation AdjustHours($entryId: ID!, $minutes: Int!, $reason: String!) {
    adjustHours(entryId: $entryId, minutes: $minutes, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

export const MyHoursQuestion = graphql(`
  query MyHours($from: LocalDate!, $to: LocalDate!, $volunteerId: ID!) {
    signedOn {
      ...HoursEntryWords
    }
    hours(from: $from, to: $to, volunteerId: $volunteerId) {
      ...HoursEntryWords
    }
    myPlaces {
      id
      state
      startsAt
      turnout {
        id
        on
      }
      task {
        id
        title
      }
    }
  }
`);

export const BookQuestion = graphql(`
  query HoursBook($from: LocalDate!, $to: LocalDate!) {
    hours(from: $from, to: $to) {
      ...HoursEntryWords
    }
    hourPeriods {
      id
      from
      to
      closedBy
      closedAt
    }
  }
`);

export const SignedOnQuestion = graphql(`
  query AllSignedOn {
    allSignedOn {
      ...HoursEntryWords
    }
  }
`);
