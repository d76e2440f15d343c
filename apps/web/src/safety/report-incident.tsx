import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Choice, Field, Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { useOutcome } from '../hours/use-outcome.js';
import { shrunk } from '../pieces/shrink.js';

const ReportIncidentDeed = graphql(`
  mutation ReportIncident($input: IncidentInput!) {
    reportIncident(input: $input) {
      __typename
      ...Refused
    }
  }
`);

const fields = {
  what: 'incident-what',
  place: 'incident-place',
  who: 'incident-who',
  picture: 'incident-picture',
};

/** Three lines and, if there is one, a photograph. */
export function Report({ reported }: { reported: (words: string) => void }) {
  const { run, busy } = useDeed(ReportIncidentDeed);
  const { outcome, words, wrong, settle } = useOutcome(fields);
  const [unread, setUnread] = useState(false);

  async function send(filled: Filled) {
    const file = filled.file('picture');
    const picture = file ? await shrunk(file) : null;
    setUnread(file !== null && picture === null);
    if (file && !picture) return;
    const kinds = { 'near-miss': 'NEAR_MISS', hurt: 'HURT', damage: 'DAMAGE' } as const;
    const answer = await run({
      input: {
        kind: kinds[filled.text('kind') as keyof typeof kinds],
        what: filled.text('what'),
        place: filled.text('place'),
        who: filled.textOrNull('who'),
        picture,
      },
    });
    if (!settle(answer, 'Reported.')) return;
    filled.form.reset();
    reported('It is reported. The coordinator and the director are told.');
  }

  return (
    <details className="fold">
      <summary>Report it in three lines</summary>
      <Form send={send}>
        <Answer outcome={outcome?.kind === 'done' ? null : outcome} done={words} fields={fields} />
        <p>Where somebody is hurt, see to them first and call for help; write afterwards.</p>
        <Choice id="incident-kind" name="kind" label="It was">
          <option value="near-miss">a near miss: nothing came of it</option>
          <option value="hurt">somebody hurt</option>
          <option value="damage">something damaged</option>
        </Choice>
        <Note id="incident-what" name="what" label="What happened" wrong={wrong('incident-what')} />
        <Field id="incident-place" name="place" label="Where" wrong={wrong('incident-place')} />
        <Field
          id="incident-who"
          name="who"
          label="Who was hurt, or could have been"
          hint="Only the director, the coordinator and you can read this line."
          wrong={wrong('incident-who')}
        />
        <Field
          id="incident-picture"
          name="picture"
          type="file"
          accept="image/*"
          label="A photograph"
          hint="Not needed. Where and with what it was taken is left out of it."
          wrong={unread ? 'This file is no picture that the browser can read.' : wrong('incident-picture')}
        />
        <button type="submit" className="deed" disabled={busy}>
          Report it
        </button>
      </Form>
    </details>
  );
}
