import { graphql } from '../gql/gql.js';
import type { ToldQuery } from '../gql/graphql.js';

export const ToldQuestion = graphql(`
  query Told {
    news {
      ...Told
    }
  }
  fragment Told on News {
    unread
    isMailSetUp
    messages {
      id
      subject
      words
      path
      postedAt
      readAt
    }
    choices {
      kind
      about
      way
      maySwitchOff
    }
  }
`);

export const UnreadQuestion = graphql(`
  query Unread {
    news {
      unread
    }
  }
`);

export const NewsCame = graphql(`
  subscription NewsCame {
    newsCame
  }
`);

export type ToldNews = ToldQuery['news'];
