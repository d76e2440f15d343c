import type { ReactNode } from 'react';
import { useAsk } from '../live/ask.js';
import { Asked } from '../parts/asked.js';
import { PiecesQuestion, type ListedPiece } from './pieces.question.js';

interface AllPiecesProps {
  after?: string | null;
  before?: ListedPiece[];
  children: (pieces: ListedPiece[], again: () => void) => ReactNode;
}

/** All pieces, 200 at a time. */
export function AllPieces({ after = null, before = [], children }: AllPiecesProps) {
  const [answer, again] = useAsk(PiecesQuestion, { after });
  return (
    <Asked answer={answer} what="the pieces" again={again}>
      {({ pieces }) => {
        const sofar = [...before, ...pieces.edges.map((edge) => edge.node)];
        return pieces.pageInfo.hasNextPage ? (
          <AllPieces after={pieces.pageInfo.endCursor ?? null} before={sofar}>
            {children}
          </AllPieces>
        ) : (
          children(sofar, again)
        );
      }}
    </Asked>
  );
}
