import { useState } from 'react';
import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { sayDay, timeOf } from '../words/dates.js';
import { AdjustHoursDeed, CorrectHoursDeed, type Entry } from './hours.question.js';
import { sayHours, sayTimes } from './hours-words.js';
import { useOutcome } from './use-outcome.js';

interface EntryProps {
  entry: Entry;
  /** Whether the name is said: in the book of all, not among one's own. */
  named: boolean;
  mayAdjust: boolean;
  changed: (words: string) => void;
}

/** One entry of the book with what it said before; wrong ones are put right here. */
export function EntryLine({ entry, named, mayAdjust, changed }: EntryProps) {
  const { timeZone } = useYard();
  return (
    <>
      <span className="pencil">{sayDay(entry.on)}</span> {named ? <strong>{entry.hand.name}</strong> : null}{' '}
      {sayTimes(entry, timeZone)}{' '}
      <strong>{typeof entry.minutes === 'number' ? sayHours(entry.minutes) : 'signed on'}</strong>,{' '}
      {entry.task?.title ?? 'work on no task'} <span className="pencil">({entry.kind})</span>
      {entry.way === 'ADJUSTMENT' ? ' An adjustment.' : ''}
      {entry.note ? ` ${entry.note}` : ''}
      {entry.reason ? (
        <span className="pencil">
          {' '}
          Put right by {entry.enteredBy}: {entry.reason}.
          {entry.before
            .map((before) => ` Before: ${sayTimes(before, timeZone)}, by ${before.enteredBy}.`)
            .join('')}
        </span>
      ) : null}
      {typeof entry.minutes !== 'number' || entry.way === 'ADJUSTMENT' ? null : entry.isClosed ? (
        mayAdjust ? (
          <details className="fold">
            <summary>Adjust</summary>
            <Adjust entry={entry} changed={changed} />
          </details>
        ) : (
          <span className="pencil"> Closed.</span>
        )
      ) : (
        <details className="fold">
          <summary>This is wrong</summary>
          <Correct entry={entry} changed={changed} />
        </details>
      )}
    </>
  );
}

function Correct({ entry, changed }: Pick<EntryProps, 'entry' | 'changed'>) {
  const { timeZone } = useYard();
  const { run, busy } = useDeed(CorrectHoursDeed);
  const id = (name: string) => `${entry.id}-${name}`;
  const fields = { from: id('from'), to: id('to'), reason: id('reason') };
  const { outcome, words, wrong, settle } = useOutcome(fields);
  const [takeOut, setTakeOut] = useState(false);

  async function send(filled: Filled) {
    const right = takeOut
      ? null
      : { from: filled.text('from'), to: filled.text('to'), taskId: entry.task?.id ?? null };
    const answer = await run({ entryId: entry.id, right, reason: filled.text('reason') });
    if (settle(answer, takeOut ? 'The entry is taken out.' : 'The hours are put right.'))
      changed('The hours are put right; what they said before stays on record.');
  }

  return (
    <Form send={send}>
      <Answer outcome={outcome} done={words} fields={fields} />
      <div className="tick">
        <input
          id={id('out')}
          type="checkbox"
          checked={takeOut}
          onChange={(event) => {
            setTakeOut(event.target.checked);
          }}
        />
        <label htmlFor={id('out')}>It should not be there at all</label>
      </div>
      {takeOut ? null : (
        <div className="side-by-side">
          <Field
            id={id('from')}
            name="from"
            type="time"
            label="From"
            defaultValue={entry.startsAt ? timeOf(entry.startsAt, timeZone) : ''}
            wrong={wrong(id('from'))}
          />
          <Field
            id={id('to')}
            name="to"
            type="time"
            label="To"
            defaultValue={entry.endsAt ? timeOf(entry.endsAt, timeZone) : ''}
            wrong={wrong(id('to'))}
          />
        </div>
      )}
      <Field id={id('reason')} name="reason" label="Why it was wrong" required wrong={wrong(id('reason'))} />
      <button type="submit" className="deed" disabled={busy}>
        Put it right
      </button>
    </Form>
  );
}

function Adjust({ entry, changed }: Pick<EntryProps, 'entry' | 'changed'>) {
  const { run, busy } = useDeed(AdjustHoursDeed);
  const id = (name: string) => `${entry.id}-${name}`;
  const fields = { minutes: id('minutes'), reason: id('reason') };
  const { outcome, words, wrong, settle } = useOutcome(fields);

  async function send(filled: Filled) {
    const answer = await run({
      entryId: entry.id,
      minutes: Math.round(filled.number('minutes')),
      reason: filled.text('reason'),
    });
    if (settle(answer, 'The adjustment is entered.')) changed('The adjustment is entered, dated today.');
  }

  return (
    <Form send={send}>
      <Answer outcome={outcome} done={words} fields={fields} />
      <Field
        id={id('minutes')}
        name="minutes"
        type="number"
        label="Minutes more"
        hint="Fewer with a minus. The closed hours stay as they are; this is entered today."
        wrong={wrong(id('minutes'))}
      />
      <Field id={id('reason')} name="reason" label="Why they were wrong" wrong={wrong(id('reason'))} />
      <button type="submit" className="deed" disabled={busy}>
        Enter the adjustment
      </button>
    </Form>
  );
}
