import { graphql } from '../gql/gql.js';
import type { PieceByCodeQuery, PiecesQuery } from '../gql/graphql.js';

export const PiecesQuestion = graphql(`
  query Pieces($after: String) {
    pieces(first: 200, after: $after) {
      edges {
        node {
          id
          code
          name
          place
          fate
          keptAt
          cameOffOn
        }
      }
      pageInfo {
        hasNextPage
        endCursor
      }
    }
  }
`);

export type ListedPiece = PiecesQuery['pieces']['edges'][number]['node'];

export const PieceByCodeQuestion = graphql(`
  query PieceByCode($code: String!) {
    pieceByCode(code: $code) {
      reading
      words
      piece {
        id
        version
        code
        name
        place
        face
        heading
        wayUp
        fate
        keptAt
        cameOffOn
        story {
          at
          words
          by
        }
        nextTask {
          id
          title
          position
          state
        }
        pictures {
          id
          address
          width
          height
          caption
          addedAt
          mayRemove
        }
      }
      likely {
        id
        code
        name
        place
      }
    }
  }
`);

export type Finding = PieceByCodeQuery['pieceByCode'];
export type Piece = NonNullable<Finding['piece']>;
