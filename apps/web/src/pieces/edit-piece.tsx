import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { PieceFace, PieceFate, PieceHeading } from '../gql/graphql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { capital } from '../words/amounts.js';
import { fateWords } from './piece-words.js';
import type { Piece } from './pieces.question.js';
import { WayUp } from './way-up.js';

const EditPieceDeed = graphql(`
  mutation EditPiece($id: ID!, $version: Int!, $input: EditPieceInput!) {
    editPiece(id: $id, version: $version, input: $input) {
      __typename
      ... on PiecePayload {
        piece {
          id
          version
        }
      }
      ...Refused
    }
  }
`);

const NotePieceDeed = graphql(`
  mutation NotePiece($id: ID!, $words: String!) {
    notePiece(id: $id, words: $words) {
      __typename
      ... on PiecePayload {
        piece {
          id
        }
      }
      ...Refused
    }
  }
`);

const fields = { cameOffOn: 'edit-off', keptAt: 'edit-kept', fate: 'edit-fate' };

/** Where it is, which way up it lay, what becomes of it; and a line for its story. */
export function EditPiece({ piece, changed }: { piece: Piece; changed: () => void }) {
  const { me, today } = useYard();
  const { run, busy } = useDeed(EditPieceDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const decides = me.role === 'SHIPWRIGHT' || me.role === 'DIRECTOR';

  async function submit(filled: Filled) {
    const answer = await run({
      id: piece.id,
      version: piece.version,
      input: {
        cameOffOn: filled.textOrNull('off'),
        keptAt: filled.textOrNull('kept'),
        face: filled.textOrNull('face') as PieceFace | null,
        heading: filled.textOrNull('heading') as PieceHeading | null,
        ...(decides ? { fate: filled.text('fate') as PieceFate } : {}),
      },
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('Written down.');
    changed();
  }

  return (
    <>
      <Form send={submit}>
        <Answer outcome={outcome} done="Written down." fields={fields} />
        <div className="side-by-side">
          <Field
            id="edit-off"
            name="off"
            type="date"
            max={today}
            label="Came off on"
            defaultValue={piece.cameOffOn ?? ''}
          />
          <Field
            id="edit-kept"
            name="kept"
            label="Where it is kept"
            defaultValue={piece.keptAt ?? ''}
            maxLength={200}
          />
        </div>
        <WayUp prefix="edit" face={piece.face} heading={piece.heading} />
        {decides ? (
          <Choice id="edit-fate" name="fate" label="What becomes of it" defaultValue={piece.fate}>
            {Object.entries(fateWords).map(([value, said]) => (
              <option key={value} value={value}>
                {capital(said)}
              </option>
            ))}
          </Choice>
        ) : null}
        <button type="submit" className="deed" disabled={busy}>
          {busy ? 'Writing…' : 'Write it down'}
        </button>
      </Form>
      <Remark piece={piece} changed={changed} />
    </>
  );
}

function Remark({ piece, changed }: { piece: Piece; changed: () => void }) {
  const { run, busy } = useDeed(NotePieceDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  async function submit(filled: Filled) {
    const answer = await run({ id: piece.id, words: filled.text('words') });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    filled.form.reset();
    changed();
  }
  return (
    <Form send={submit}>
      <Answer outcome={outcome} done="It stands in the story." fields={{ words: 'piece-remark' }} />
      <Field
        id="piece-remark"
        name="words"
        label="A line for its story"
        hint="What the next crew should know."
        maxLength={500}
      />
      <button type="submit" className="quiet" disabled={busy}>
        Add the line
      </button>
    </Form>
  );
}
