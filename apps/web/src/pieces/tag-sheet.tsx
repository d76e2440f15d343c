import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Field } from '../parts/field.js';
import { Page } from '../parts/page.js';
import { PrintButton } from '../parts/print-button.js';
import { count } from '../words/amounts.js';
import { AllPieces } from './all-pieces.js';
import { answersTo } from './piece-words.js';
import type { ListedPiece } from './pieces.question.js';
import { QrSquare } from './qr-square.js';
import './pieces.css';

const TagQuestion = graphql(`
  query Tag($id: ID!, $address: String!) {
    piece(id: $id) {
      id
      qr(address: $address)
      wayUp
    }
  }
`);

const mostAtOnce = 120;

/** Tags to print, cut and tie on: the square, the code to be read aloud, the place in words, an arrow. */
export function TagSheet() {
  const [words, setWords] = useState('');
  return (
    <Page
      title="Tags to print"
      lead={<p>Twelve to a sheet. Print on card, cut along the lines, tie on before the piece moves.</p>}
    >
      <p className="no-print">
        <a href={to('pieces')}>All pieces</a>
      </p>
      <AllPieces>
        {(pieces) => {
          const kept = pieces.filter((piece) => answersTo(piece, words)).slice(0, mostAtOnce);
          return (
            <>
              <div className="no-print">
                <Field
                  id="tag-words"
                  label="Only those with"
                  hint="strake 9, frame 12…"
                  value={words}
                  onChange={(event) => {
                    setWords(event.target.value);
                  }}
                />
                <p role="status">
                  {count(kept.length, 'tag')}
                  {kept.length === mostAtOnce ? `, the most at once` : ''}.
                </p>
                <PrintButton />
              </div>
              {kept.length ? (
                <ul className="plain tag-sheet">
                  {kept.map((piece) => (
                    <Tag key={piece.id} piece={piece} />
                  ))}
                </ul>
              ) : (
                <Nothing>
                  <p>No tag answers to that.</p>
                </Nothing>
              )}
            </>
          );
        }}
      </AllPieces>
    </Page>
  );
}

function Tag({ piece }: { piece: ListedPiece }) {
  const { haulOut } = useYard();
  const [answer, again] = useAsk(TagQuestion, { id: piece.id, address: window.location.origin });
  return (
    <li className="tag">
      <Asked answer={answer} what="the tag" again={again}>
        {({ piece: found }) => <QrSquare rows={found?.qr ?? []} title={`Square of tag ${piece.code}`} />}
      </Asked>
      <div className="tag-words">
        <p className="tag-code">{piece.code}</p>
        <p className="tag-name">{piece.name}</p>
        {piece.place === piece.name ? null : <p>{piece.place}</p>}
        <p className="tag-way">{answer.data?.piece?.wayUp ?? 'Face: ________ ↑ ________'}</p>
        <p className="tag-vessel">{haulOut?.vessel.name}</p>
      </div>
    </li>
  );
}
