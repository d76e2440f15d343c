import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { capital, count } from '../words/amounts.js';
import { sayException, type Exception } from '../words/attendance.js';

const PreviewDeed = graphql(`
  mutation PreviewCalendarFile($volunteerId: ID!, $text: String!) {
    previewCalendarFile(volunteerId: $volunteerId, text: $text) {
      __typename
      ... on CalendarFilePreview {
        read
        passedOver
        exceptions {
          fromOn
          toOn
          canCome
          from
          to
        }
      }
      ...Refused
    }
  }
`);

interface ImportFileProps {
  volunteerId: string;
  busy: boolean;
  add: (exceptions: Exception[]) => Promise<boolean>;
}

/** Away when a calendar says busy: looked at first, kept then. */
export function ImportFile({ volunteerId, busy, add }: ImportFileProps) {
  const { run, busy: reading } = useDeed(PreviewDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const [seen, setSeen] = useState<{ exceptions: Exception[]; passedOver: number } | null>(null);

  async function read(filled: Filled) {
    const text = (await filled.file('file')?.text()) ?? '';
    const answer = await run({ volunteerId, text });
    setOutcome(answer.kind === 'done' ? null : answer);
    setSeen(answer.kind === 'done' ? answer.done : null);
  }

  async function keep(exceptions: Exception[]) {
    if (await add(exceptions)) setSeen(null);
  }

  return (
    <details className="fold">
      <summary>Take them from a calendar file</summary>
      <Form send={read}>
        <Answer outcome={outcome} done="" fields={{ text: 'calendar-file' }} />
        <Field
          id="calendar-file"
          name="file"
          type="file"
          accept=".ics,text/calendar"
          label="A file that ends in .ics"
          hint="Where it says busy you are away. What you do then is not kept."
        />
        <button type="submit" className="quiet" disabled={reading}>
          Look at it
        </button>
      </Form>
      {seen ? (
        <div role="status">
          <p>
            {seen.exceptions.length === 0
              ? 'Nothing in it makes you busy from today on.'
              : `You would be away ${count(seen.exceptions.length, 'time', 'times')}:`}
            {seen.passedOver > 0 ? ` ${seen.passedOver} marked as free or cancelled were passed over.` : ''}
          </p>
          <ul className="plain">
            {seen.exceptions.map((one) => (
              <li key={one.fromOn + one.toOn + (one.from ?? '') + (one.to ?? '')}>
                {capital(sayException(one))}.
              </li>
            ))}
          </ul>
          {seen.exceptions.length > 0 ? (
            <button type="button" className="deed" disabled={busy} onClick={() => void keep(seen.exceptions)}>
              Keep them as days away
            </button>
          ) : null}
        </div>
      ) : null}
    </details>
  );
}
