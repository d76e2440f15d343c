import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed } from '../live/deed.js';
import { CalendarFile } from '../parts/calendar-file.js';
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
  const [seen, setSeen] = useState<{ exceptions: Exception[]; passedOver: number } | null>(null);

  async function look(text: string) {
    const answer = await run({ volunteerId, text });
    setSeen(answer.kind === 'done' ? answer.done : null);
    return answer;
  }

  async function keep(exceptions: Exception[]) {
    if (await add(exceptions)) setSeen(null);
  }

  return (
    <CalendarFile
      id="calendar-file"
      summary="Take them from a calendar file"
      hint="Where it says busy you are away. What you do then is not kept."
      busy={reading}
      look={look}
    >
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
    </CalendarFile>
  );
}
