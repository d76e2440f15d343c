import { graphql } from '../gql/gql.js';
import type { PermitsQuery } from '../gql/graphql.js';

export const PermitsQuestion = graphql(`
  query Permits {
    safety {
      permits {
        id
        kind
        by
        expiresAt
        oxygenPercent
        flammablePercent
        note
      }
      tags {
        id
        kind
        name
        inspectedBy
        inspectedOn
        expiresOn
      }
      weather {
        id
        highFahrenheit
        lowFahrenheit
        windMilesAnHour
        airQualityIndex
        thunder
        holdReason
        holdHazards
        writtenBy
      }
      loudness {
        id
        toolId
        dba
        measuredOn
        by
      }
      settings {
        protectorsRating
        agesReason
        agesBy
      }
      ages {
        visitorsBelow
        inSightBelow
        teardownFrom
        byHazard {
          hazard
          name
          from
          usual
          basis
        }
      }
    }
    tools {
      id
      name
    }
    gateRules {
      says
      basis
      setAsideBy
    }
  }
`);

export type Safety = PermitsQuery['safety'];

export const OpenPermitDeed = graphql(`
  mutation OpenPermit($input: PermitInput!) {
    openPermit(input: $input) {
      __typename
      ...Refused
    }
  }
`);

export const ClosePermitDeed = graphql(`
  mutation ClosePermit($id: ID!) {
    closePermit(id: $id) {
      __typename
      ...Refused
    }
  }
`);

export const HangTagDeed = graphql(`
  mutation HangTag($input: TagInput!) {
    hangTag(input: $input) {
      __typename
      ...Refused
    }
  }
`);

export const WithdrawTagDeed = graphql(`
  mutation WithdrawTag($id: ID!) {
    withdrawTag(id: $id) {
      __typename
      ...Refused
    }
  }
`);

export const WriteWeatherDeed = graphql(`
  mutation WriteWeather($input: WeatherInput!) {
    writeWeather(input: $input) {
      __typename
      ...Refused
    }
  }
`);

export const WriteLoudnessDeed = graphql(`
  mutation WriteLoudness($toolId: ID, $dba: Int!, $by: String!) {
    writeLoudness(toolId: $toolId, dba: $dba, by: $by) {
      __typename
      ...Refused
    }
  }
`);

export const SetProtectorsDeed = graphql(`
  mutation SetProtectors($rating: Int) {
    setProtectors(rating: $rating) {
      __typename
      ...Refused
    }
  }
`);

export const SetAgesDeed = graphql(`
  mutation SetAges(
    $reason: String!
    $visitorsBelow: Int
    $inSightBelow: Int
    $teardownFrom: Int
    $byHazard: [HazardAgeInput!]
  ) {
    setAges(
      reason: $reason
      visitorsBelow: $visitorsBelow
      inSightBelow: $inSightBelow
      teardownFrom: $teardownFrom
      byHazard: $byHazard
    ) {
      __typename
      ...Refused
    }
  }
`);
