import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { go, to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Nothing } from '../parts/asked.js';
import { Field } from '../parts/field.js';
import { Form } from '../parts/form.js';
import { Page, Section } from '../parts/page.js';
import { count } from '../words/amounts.js';
import { AllPieces } from './all-pieces.js';
import { answersTo, fateWords } from './piece-words.js';
import type { ListedPiece } from './pieces.question.js';
import { TagPiece } from './tag-piece.js';
import './pieces.css';

/** What came off: find a piece by the code on its tag, write tags, print them. */
export function Pieces() {
  return (
    <Page
      title="Pieces"
      lead={<p>Everything that comes off carries a tag, so that it finds its way back.</p>}
    >
      <Section title="What is on the tag?" id="find">
        <FindByCode />
      </Section>
      <AllPieces>{(pieces, again) => <PieceBook pieces={pieces} again={again} />}</AllPieces>
    </Page>
  );
}

function FindByCode() {
  return (
    <Form
      className="find-tag"
      send={(filled) => {
        const code = filled.text('code');
        if (code) go(to('pieces', code));
        return Promise.resolve();
      }}
    >
      <Field
        id="tag-code"
        name="code"
        label="Six signs, as they stand beside the square"
        hint="Case and hyphen do not matter; one wrong sign is mended. Or point the phone’s camera at the square."
        autoComplete="off"
        autoCapitalize="characters"
        spellCheck={false}
        maxLength={12}
      />
      <button type="submit" className="deed">
        Show the piece
      </button>
    </Form>
  );
}

function PieceBook({ pieces, again }: { pieces: ListedPiece[]; again: () => void }) {
  const { me } = useYard();
  const [words, setWords] = useState('');
  const kept = pieces.filter((piece) => answersTo(piece, words));
  return (
    <Section
      title="All that is tagged"
      id="tagged"
      aside={pieces.length ? <a href={to('pieces', 'print')}>Print tags</a> : null}
    >
      {pieces.length ? (
        <>
          <Field
            id="piece-words"
            label="Find"
            hint="strake 9, rack 3, goes back…"
            value={words}
            onChange={(event) => {
              setWords(event.target.value);
            }}
          />
          <p role="status">
            {count(kept.length, 'piece')}
            {kept.length < pieces.length ? ` of ${pieces.length}` : ''}.
          </p>
          <ul className="plain piece-list">
            {kept.map((piece) => (
              <li key={piece.id}>
                <a href={to('pieces', piece.code)}>
                  <span className="tag-code">{piece.code}</span> {piece.name}
                </a>
                <span className="piece-where">
                  {piece.cameOffOn ? (piece.keptAt ?? 'nobody says where it is kept') : 'still in place'};{' '}
                  {fateWords[piece.fate]}
                </span>
              </li>
            ))}
          </ul>
        </>
      ) : (
        <Nothing>
          <p>Nothing has a tag yet. Tag the first piece before its last fastening is out.</p>
        </Nothing>
      )}
      {me.role === 'VOLUNTEER' ? null : (
        <>
          <TagWhatOpens tagged={again} />
          <p>
            <a href={to('pieces', 'handover')}>The handover pack</a>: what was done to each timber, to print.
          </p>
        </>
      )}
      <TagPiece tagged={again} />
    </Section>
  );
}

const TagWhatOpensDeed = graphql(`
  mutation TagWhatOpens {
    tagWhatOpens {
      __typename
      ... on PiecesPayload {
        pieceIds
      }
      ...Refused
    }
  }
`);

function TagWhatOpens({ tagged }: { tagged: () => void }) {
  const { run, busy } = useDeed(TagWhatOpensDeed);
  const [outcome, setOutcome] = useState<Outcome<{ pieceIds: string[] }> | null>(null);
  const many = outcome?.kind === 'done' ? outcome.done.pieceIds.length : 0;
  return (
    <div>
      <Answer
        outcome={outcome}
        done={many ? `${count(many, 'tag')} written.` : 'Everything that is to come off has its tag already.'}
      />
      <button
        type="button"
        className="quiet"
        disabled={busy}
        onClick={() => {
          void run({}).then((answer) => {
            setOutcome(answer);
            tagged();
          });
        }}
      >
        {busy ? 'Writing…' : 'Write a tag for all that the work opens'}
      </button>
    </div>
  );
}
