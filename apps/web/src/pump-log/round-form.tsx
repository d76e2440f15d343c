import { useState } from 'react';
import { type KeptOutcome, useKeptDeed } from '../live/kept-deeds.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { dayOf, timeOf } from '../words/dates.js';
import { forField, unitName } from '../words/lengths.js';
import { type PumpLog, type Written, WritePumpEntryDeed } from './pump-log.question.js';
import { figuresOf, momentOf } from './read-round.js';

interface RoundFormProps {
  turnout: PumpLog['turnout'];
  /** The entry that is corrected; null for a new round. */
  entry: Written | null;
  changed: () => void;
}

/**
 * A round at the pumps, new or in the place of another. Pressed without a line it waits on the phone. What is corrected
 * is what stood there when the form was opened: the server says so where somebody has written meanwhile.
 */
export function RoundForm({ turnout, entry, changed }: RoundFormProps) {
  const { me, timeZone } = useYard();
  const { units, yardNow, isDemo } = me.organisation;
  const { run, busy } = useKeptDeed(WritePumpEntryDeed);
  const [outcome, setOutcome] = useState<KeptOutcome<unknown> | null>(null);
  const [open, setOpen] = useState(entry === null);
  const [read, setRead] = useState(entry);
  const id = (name: string) => `pump-${read?.id ?? turnout.id}-${name}`;
  const fields = Object.fromEntries(
    ['read', 'depthMillimetres', 'strokes', 'minutes', 'doneBy', 'remark', 'reason'].map((name) => [
      `input.${name}`,
      id(name),
    ]),
  );
  const done = entry ? 'The entry is corrected.' : 'The round is written down.';
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;
  const wrongAt = controlFor(refusal?.field, fields);
  const wrong = (name: string) => (wrongAt === id(name) ? refusal?.message : null);

  async function send(filled: Filled) {
    // The press is the round: it may be sent much later. The demo yard's clock stands.
    const now = isDemo ? yardNow : new Date().toISOString();
    const typed = (name: string) => filled.text(name);
    const counted = figuresOf(typed, units);
    if ('refusal' in counted) {
      setOutcome({ kind: 'refused', ...counted });
      return;
    }
    const input = {
      turnoutId: turnout.id,
      ...momentOf(typed, { entry: read, now, timeZone }),
      ...counted.figures,
      doneBy: filled.text('doneBy'),
      remark: filled.textOrNull('remark'),
      correctsId: read?.id ?? null,
      reason: filled.textOrNull('reason'),
    };
    const time = filled.text('read') || timeOf(now, timeZone);
    const answer = await run({ input }, { what: `Round at the pumps at ${time}`, done });
    setOutcome(answer);
    if (answer.kind !== 'done' && answer.kind !== 'kept') return;
    filled.form.reset();
    if (entry) setOpen(false);
    changed();
  }

  return (
    <>
      <Answer outcome={outcome} done={done} fields={fields} />
      <details
        className="fold"
        open={open}
        onToggle={(event) => {
          if (event.currentTarget.open) setRead(entry);
          setOpen(event.currentTarget.open);
        }}
      >
        <summary>{entry ? 'Correct it' : 'Write a round down'}</summary>
        <Form key={read?.id ?? 'new'} send={send}>
          <div className="row">
            <Field
              id={id('on')}
              name="on"
              type="date"
              label="On"
              hint="Left empty: today."
              defaultValue={read ? dayOf(read.readAt, timeZone) : ''}
            />
            <Field
              id={id('read')}
              name="read"
              type="time"
              label="At"
              wrong={wrong('read')}
              hint="Left empty: now."
              defaultValue={read ? timeOf(read.readAt, timeZone) : ''}
            />
          </div>
          <div className="row">
            <Field
              id={id('depthMillimetres')}
              name="depthMillimetres"
              inputMode="decimal"
              wrong={wrong('depthMillimetres')}
              label={`Water before pumping, ${unitName(units)}`}
              defaultValue={
                typeof read?.depthMillimetres === 'number' ? forField(read.depthMillimetres, units) : ''
              }
            />
            <Field
              id={id('strokes')}
              name="strokes"
              inputMode="numeric"
              wrong={wrong('strokes')}
              label="Strokes pumped"
              hint="Since the round before; 0 for none."
              defaultValue={read?.strokes ?? ''}
            />
            <Field
              id={id('minutes')}
              name="minutes"
              inputMode="numeric"
              wrong={wrong('minutes')}
              label="or minutes pumped"
              defaultValue={read?.minutes ?? ''}
            />
          </div>
          <Field
            id={id('doneBy')}
            name="doneBy"
            label="Who looked"
            wrong={wrong('doneBy')}
            defaultValue={read?.doneBy ?? me.account.name}
          />
          <Field
            id={id('remark')}
            name="remark"
            label="Remark"
            wrong={wrong('remark')}
            defaultValue={read?.remark ?? ''}
          />
          {entry ? (
            <Field
              id={id('reason')}
              name="reason"
              wrong={wrong('reason')}
              label="Why it reads otherwise than before"
              hint="What was written stays readable. Without any figure the entry is struck out."
            />
          ) : null}
          <button type="submit" className="deed" disabled={busy}>
            {entry ? 'Correct this entry' : 'Write it down'}
          </button>
        </Form>
      </details>
    </>
  );
}
