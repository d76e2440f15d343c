import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { PieceFace, PieceHeading } from '../gql/graphql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { go, to } from '../live/route.js';
import { Answer } from '../parts/answer.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { WayUp } from './way-up.js';

const TagPieceDeed = graphql(`
  mutation TagPiece($input: PieceInput!) {
    tagPiece(input: $input) {
      __typename
      ... on PiecePayload {
        piece {
          id
          code
        }
      }
      ...Refused
    }
  }
`);

const fields = { name: 'piece-name', place: 'piece-place', cameOffOn: 'piece-off', keptAt: 'piece-kept' };

/** Writes a tag for a piece; its page opens, for pictures and the rest. */
export function TagPiece({ tagged }: { tagged: () => void }) {
  const { run, busy } = useDeed(TagPieceDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);

  async function submit(filled: Filled) {
    const answer = await run({
      input: {
        name: filled.text('name'),
        place: filled.text('place'),
        face: filled.textOrNull('face') as PieceFace | null,
        heading: filled.textOrNull('heading') as PieceHeading | null,
        keptAt: filled.textOrNull('kept'),
      },
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    tagged();
    go(to('pieces', answer.done.piece.code));
  }

  return (
    <details className="fold">
      <summary>Tag another piece</summary>
      <Form send={submit}>
        <Answer outcome={outcome} done="The tag is written." fields={fields} />
        <Field id="piece-name" name="name" label="What it is" hint="Hanging knee, covering board…" />
        <Field
          id="piece-place"
          name="place"
          label="Where it belongs"
          hint="As one would say it: starboard, under the third deck beam."
        />
        <WayUp prefix="piece" />
        <Field id="piece-kept" name="kept" label="Where it is kept" hint="Rack, shed, under the bow…" />
        <button type="submit" className="deed" disabled={busy}>
          {busy ? 'Writing…' : 'Write its tag'}
        </button>
      </Form>
    </details>
  );
}
