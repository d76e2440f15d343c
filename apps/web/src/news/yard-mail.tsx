import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Section } from '../parts/page.js';
import { count } from '../words/amounts.js';
import { dayOf, sayDay } from '../words/dates.js';

const YardMailQuestion = graphql(`
  query YardMail {
    yardMail {
      quietHours {
        fromTime
        toTime
      }
      deadLetters {
        id
        name
        subject
        postedAt
        tries
        trouble
      }
    }
  }
`);

const SendAgainDeed = graphql(`
  mutation SendAgain($id: ID!) {
    sendAgain(id: $id) {
      __typename
      ...Refused
    }
  }
`);

const QuietDeed = graphql(`
  mutation SetQuietHours($fromTime: String!, $toTime: String!) {
    setQuietHours(fromTime: $fromTime, toTime: $toTime) {
      __typename
      ...Refused
    }
  }
`);

/** What could not be delivered: somebody has to ring. And when the yard sends nothing. */
export function YardMail() {
  const { timeZone } = useYard();
  const [answer, again] = useAsk(YardMailQuestion, {});
  const sending = useDeed(SendAgainDeed);
  const quiet = useDeed(QuietDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);

  async function sendAgain(id: string) {
    setOutcome(await sending.run({ id }));
    again();
  }

  async function setQuiet(filled: Filled) {
    setOutcome(await quiet.run({ fromTime: filled.text('fromTime'), toTime: filled.text('toTime') }));
    again();
  }

  return (
    <Section title="The yard’s e-mail" id="yard-mail">
      <Answer outcome={outcome} done="Done." fields={{ fromTime: 'quiet-from', toTime: 'quiet-to' }} />
      <Asked answer={answer} what="the yard’s mail" again={again}>
        {({ yardMail }) => (
          <>
            {yardMail.deadLetters.length === 0 ? (
              <p>Everything that was sent went out.</p>
            ) : (
              <>
                <p>These could not be delivered. Tell the people yourself, or put their address right.</p>
                <ul className="plain told">
                  {yardMail.deadLetters.map((letter) => (
                    <li key={letter.id}>
                      <p>
                        {letter.name}: {letter.subject}, {sayDay(dayOf(letter.postedAt, timeZone))}. Tried{' '}
                        {count(letter.tries, 'time', 'times')}.
                      </p>
                      <p className="pencil">{letter.trouble}</p>
                      <button
                        type="button"
                        className="quiet"
                        disabled={sending.busy}
                        onClick={() => void sendAgain(letter.id)}
                      >
                        Send it again
                        <span className="unseen">
                          {' '}
                          to {letter.name}: {letter.subject}
                        </span>
                      </button>
                    </li>
                  ))}
                </ul>
              </>
            )}
            <details className="fold">
              <summary>
                Quiet hours: no e-mail from {yardMail.quietHours.fromTime} to {yardMail.quietHours.toTime}
              </summary>
              <Form send={setQuiet}>
                <p className="hint">
                  What comes in these hours is sent after them. News that cannot wait go out all the same.
                </p>
                <div className="row">
                  <Field
                    id="quiet-from"
                    name="fromTime"
                    type="time"
                    label="From"
                    defaultValue={yardMail.quietHours.fromTime}
                  />
                  <Field
                    id="quiet-to"
                    name="toTime"
                    type="time"
                    label="To"
                    hint="The same for none."
                    defaultValue={yardMail.quietHours.toTime}
                  />
                </div>
                <button type="submit" className="deed" disabled={quiet.busy}>
                  Keep these hours
                </button>
              </Form>
            </details>
          </>
        )}
      </Asked>
    </Section>
  );
}
