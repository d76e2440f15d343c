import { graphql } from '../gql/gql.js';
import type { AllHandsRolesQuery, AllHandsUsualQuery } from '../gql/graphql.js';

export const AllHandsUsualQuestion = graphql(`
  query AllHandsUsual {
    usualAllHands {
      title
      roles {
        role
        count
        asksSkill
        card {
          id
        }
      }
    }
    skills {
      id
      name
    }
    cardKinds {
      id
      name
    }
  }
`);

export const AllHandsQuestion = graphql(`
  query AllHands {
    allHandsProposal {
      ...Proposed
    }
    safetyNotice
  }
`);

export const LayOnAllHandsDeed = graphql(`
  mutation LayOnAllHands($input: AllHandsInput!) {
    layOnAllHands(input: $input) {
      __typename
      ... on AllHandsPayload {
        turnout {
          id
        }
      }
      ...Refused
    }
  }
`);

export const AllHandsRolesQuestion = graphql(`
  query AllHandsRoles($turnoutId: ID!) {
    allHandsRoles(turnoutId: $turnoutId) {
      role
      count
      level
      skill {
        id
      }
      card {
        id
      }
    }
  }
`);

export const ChangeAllHandsRolesDeed = graphql(`
  mutation ChangeAllHandsRoles($turnoutId: ID!, $version: Int!, $roles: [AllHandsRoleChangeInput!]!) {
    changeAllHandsRoles(turnoutId: $turnoutId, version: $version, roles: $roles) {
      __typename
      ... on AllHandsPayload {
        turnout {
          id
          version
        }
      }
      ...Refused
    }
  }
`);

export const PostAllHandsDeed = graphql(`
  mutation PostAllHands($places: [WatchHandInput!]!) {
    postAllHands(places: $places) {
      __typename
      ... on PostWatchesPayload {
        turnedAway
      }
      ...Refused
    }
  }
`);

export type LaidRole = AllHandsRolesQuery['allHandsRoles'][number];
export type Usual = AllHandsUsualQuery;
