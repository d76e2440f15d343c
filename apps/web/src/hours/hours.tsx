import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useDeed } from '../live/deed.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { DaySpan } from '../parts/day-span.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Page, Section } from '../parts/page.js';
import { addDays, sayShortDay } from '../words/dates.js';
import { EntryLine } from './entry.js';
import { BookQuestion, SignedOnQuestion, SignOffDeed, type Entry } from './hours.question.js';
import { sayHours, sayTimes, totalMinutes } from './hours-words.js';
import { Sheets } from './sheet.js';
import { useOutcome } from './use-outcome.js';
import './hours.css';

const CloseHoursDeed = graphql(`
  mutation CloseHours($from: LocalDate!, $to: LocalDate!) {
    closeHours(from: $from, to: $to) {
      __typename
      ...Refused
    }
  }
`);

/** The coordinator's hours book: who is signed on, paper to enter, what stands in it, closing it. */
export function Hours() {
  const { today } = useYard();
  const [from, setFrom] = useState(addDays(today, -14));
  const [until, setUntil] = useState(today);
  const [open, askOpen] = useAsk(SignedOnQuestion, {}, 'roster');
  const [book, askBook] = useAsk(BookQuestion, { from, to: until }, 'roster');
  const { outcome, words, settle } = useOutcome({});
  const changed = (said: string) => {
    settle({ kind: 'done', done: null }, said);
    askOpen();
    askBook();
  };
  return (
    <Page title="Hours" lead={<p>What people gave, kept so that it can be shown to those who ask.</p>}>
      <p>
        <a href={to('hours', 'grants')}>Grants, rates and reports</a>
      </p>
      <Answer outcome={outcome} done={words} />
      <Section title="Signed on now" id="signed-on">
        <Asked answer={open} what="who is signed on" again={askOpen}>
          {({ allSignedOn }) =>
            allSignedOn.length ? (
              <ul className="plain">
                {allSignedOn.map((entry) => (
                  <li key={entry.id}>
                    <SignOffOther entry={entry} changed={changed} />
                  </li>
                ))}
              </ul>
            ) : (
              <p>Nobody.</p>
            )
          }
        </Asked>
      </Section>
      <Section title="Enter hours from paper" id="paper">
        <Sheets changed={changed} />
      </Section>
      <Section title="In the book" id="book">
        <DaySpan id="book" from={from} to={until} setFrom={setFrom} setTo={setUntil} />
        <Asked answer={book} what="the hours" again={askBook}>
          {({ hours, hourPeriods }) => (
            <>
              <Book hours={hours} changed={changed} />
              <Close periods={hourPeriods} from={from} until={until} changed={changed} />
            </>
          )}
        </Asked>
      </Section>
    </Page>
  );
}

function Book({ hours, changed }: { hours: readonly Entry[]; changed: (words: string) => void }) {
  if (!hours.length) return <p>Nothing is in the book for these days.</p>;
  const people = [...new Map(hours.map((entry) => [entry.hand.volunteerId, entry.hand.name]))].sort((a, b) =>
    a[1].localeCompare(b[1]),
  );
  return (
    <>
      <p>
        <strong>{sayHours(totalMinutes(hours))}</strong> of {people.length}{' '}
        {people.length === 1 ? 'person' : 'people'}.
      </p>
      {people.map(([volunteerId, name]) => {
        const theirs = hours.filter((entry) => entry.hand.volunteerId === volunteerId);
        return (
          <details key={volunteerId} className="fold">
            <summary>
              {name}: {sayHours(totalMinutes(theirs))}
            </summary>
            <p>
              <a href={to('hours', 'letter', volunteerId)}>A letter to {name}</a>
            </p>
            <ul className="plain">
              {theirs.map((entry) => (
                <li key={entry.id}>
                  <EntryLine entry={entry} named={false} mayAdjust changed={changed} />
                </li>
              ))}
            </ul>
          </details>
        );
      })}
    </>
  );
}

function SignOffOther({ entry, changed }: { entry: Entry; changed: (words: string) => void }) {
  const { timeZone } = useYard();
  const { run, busy } = useDeed(SignOffDeed);
  const id = `${entry.id}-off`;
  const { outcome, words, wrong, settle } = useOutcome({ to: id });

  async function send(filled: Filled) {
    const answer = await run({ entryId: entry.id, to: filled.textOrNull('to') });
    if (settle(answer, 'Signed off.')) changed(`${entry.hand.name} is signed off.`);
  }

  return (
    <Form send={send}>
      <Answer outcome={outcome?.kind === 'done' ? null : outcome} done={words} fields={{ to: id }} />
      <strong>{entry.hand.name}</strong>, {entry.task?.title ?? 'work on no task'},{' '}
      <span className="pencil">
        {sayTimes(entry, timeZone)} on {sayShortDay(entry.on)}
      </span>
      <Field
        id={id}
        name="to"
        type="time"
        label={`When ${entry.hand.name} stopped`}
        hint="Left empty: now."
        wrong={wrong(id)}
      />
      <button type="submit" className="quiet" disabled={busy}>
        Sign {entry.hand.name} off
      </button>
    </Form>
  );
}

interface CloseProps {
  periods: readonly { id: string; from: string; to: string; closedBy: string }[];
  from: string;
  until: string;
  changed: (words: string) => void;
}

/** Closing days for good; a report is made of closed days only. */
function Close({ periods, from, until, changed }: CloseProps) {
  const { run, busy } = useDeed(CloseHoursDeed);
  const fields = { from: 'close-from', to: 'close-to' };
  const { outcome, words, wrong, settle } = useOutcome(fields);

  async function send(filled: Filled) {
    const answer = await run({ from: filled.text('from'), to: filled.text('to') });
    if (settle(answer, 'The days are closed.')) changed('The days are closed. They change no more.');
  }

  return (
    <>
      {periods.length ? (
        <>
          <h3>Closed</h3>
          <ul className="plain">
            {periods.map((period) => (
              <li key={period.id}>
                {sayShortDay(period.from)} to {sayShortDay(period.to)} {period.to.slice(0, 4)}{' '}
                <span className="pencil">by {period.closedBy}</span>
              </li>
            ))}
          </ul>
        </>
      ) : null}
      <details className="fold">
        <summary>Close days for good</summary>
        <Form send={send}>
          <Answer outcome={outcome?.kind === 'done' ? null : outcome} done={words} fields={fields} />
          <p>
            Nothing in closed days changes any more; what turns out wrong later is entered as an adjustment,
            and says so. There is no opening them again.
          </p>
          <div className="side-by-side">
            <Field
              id="close-from"
              name="from"
              type="date"
              label="First day"
              defaultValue={from}
              wrong={wrong('close-from')}
            />
            <Field
              id="close-to"
              name="to"
              type="date"
              label="Last day, which must be over"
              defaultValue={addDays(until, -1)}
              wrong={wrong('close-to')}
            />
          </div>
          <button type="submit" className="deed" disabled={busy}>
            Close these days
          </button>
        </Form>
      </details>
    </>
  );
}
