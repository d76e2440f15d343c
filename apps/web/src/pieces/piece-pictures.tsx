import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import type { Piece } from './pieces.question.js';
import { shrunk } from './shrink.js';

const AddPictureDeed = graphql(`
  mutation AddPicture($pieceId: ID!, $base64: String!, $caption: String) {
    addPicture(pieceId: $pieceId, base64: $base64, caption: $caption) {
      __typename
      ... on PicturePayload {
        pictureId
      }
      ...Refused
    }
  }
`);

const RemovePictureDeed = graphql(`
  mutation RemovePicture($id: ID!, $reason: String!) {
    removePicture(id: $id, reason: $reason) {
      __typename
      ... on PicturePayload {
        pictureId
      }
      ...Refused
    }
  }
`);

/** The pictures of a piece, and a way to add one from a phone. */
export function PiecePictures({ piece, changed }: { piece: Piece; changed: () => void }) {
  return (
    <>
      {piece.pictures.length ? (
        <ul className="plain pictures">
          {piece.pictures.map((picture) => (
            <li key={picture.id}>
              <figure>
                <a href={picture.address} target="_blank" rel="noreferrer">
                  <img
                    src={picture.address}
                    width={picture.width}
                    height={picture.height}
                    alt={picture.caption ?? `${piece.name}, a picture without a caption`}
                    loading="lazy"
                  />
                </a>
                {picture.caption ? <figcaption>{picture.caption}</figcaption> : null}
              </figure>
              {picture.mayRemove ? <TakeDown id={picture.id} changed={changed} /> : null}
            </li>
          ))}
        </ul>
      ) : (
        <p>
          None yet. One of each face and one of the whole, before it leaves its place, is worth an hour later.
        </p>
      )}
      <AddPicture piece={piece} changed={changed} />
    </>
  );
}

function AddPicture({ piece, changed }: { piece: Piece; changed: () => void }) {
  const { run, busy } = useDeed(AddPictureDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const [unread, setUnread] = useState<string | null>(null);

  async function submit(filled: Filled) {
    const file = filled.file('picture');
    const base64 = file ? await shrunk(file) : null;
    setUnread(
      base64 ? null : file ? 'This file is no picture that the browser can read.' : 'Choose a picture first.',
    );
    setOutcome(null);
    if (!base64) return;
    const answer = await run({ pieceId: piece.id, base64, caption: filled.textOrNull('caption') });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    filled.form.reset();
    say('The picture is kept.');
    changed();
  }

  return (
    <Form send={submit} className="add-picture">
      <Answer outcome={outcome} done="The picture is kept." fields={{ base64: 'picture-file' }} />
      <p className="picture-caution">
        Only the piece: nobody’s face is in it, least of all a minor’s. Where and when it was taken is left
        out before it is sent.
      </p>
      <Field
        id="picture-file"
        name="picture"
        type="file"
        accept="image/jpeg,image/png,image/webp"
        capture="environment"
        label="Picture"
        wrong={unread}
      />
      <Field
        id="picture-caption"
        name="caption"
        label="What it shows"
        hint="Inboard face, nail holes…"
        maxLength={200}
      />
      <button type="submit" className="deed" disabled={busy}>
        {busy ? 'Sending…' : 'Add the picture'}
      </button>
    </Form>
  );
}

function TakeDown({ id, changed }: { id: string; changed: () => void }) {
  const { run, busy } = useDeed(RemovePictureDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  async function submit(filled: Filled) {
    const answer = await run({ id, reason: filled.text('reason') });
    setOutcome(answer);
    if (answer.kind === 'done') changed();
  }
  return (
    <details className="fold">
      <summary>Take it down</summary>
      <Form send={submit}>
        <Answer outcome={outcome} done="It is gone." fields={{ reason: `why-${id}` }} />
        <Field
          id={`why-${id}`}
          name="reason"
          label="Why"
          hint="The picture goes; this reason stays."
          maxLength={300}
        />
        <button type="submit" className="quiet" disabled={busy}>
          Take the picture down
        </button>
      </Form>
    </details>
  );
}
