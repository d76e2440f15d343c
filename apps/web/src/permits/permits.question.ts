import { graphql } from '../gql/gql.js';

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
        writtenBy
      }
      settings {
        protectorsRating
      }
    }
    gateRules {
      says
      basis
      setAsideBy
    }
  }
`);

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
