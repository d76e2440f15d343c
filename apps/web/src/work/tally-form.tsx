import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { type KeptOutcome, useKeptDeed } from '../live/kept-deeds.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { Field, Note, Tick } from '../parts/field.js';
import { capital } from '../words/amounts.js';
import type { Estimate } from '../words/tasks.js';
import { Form, type Filled } from '../parts/form.js';

const EnterTallyDeed = graphql(`
  mutation EnterTally($input: TallyInput!) {
    enterTally(input: $input) {
      __typename
      ... on TallyPayload {
        task {
          id
          state
        }
      }
      ...Refused
    }
  }
`);

const fields = {
  count: 'tally-count',
  minutes: 'tally-hours',
  note: 'tally-note',
  finished: 'tally-finished',
};

interface TallyFormProps {
  task: { id: string; title: string; estimate?: Estimate | null };
  /** Whether the tally may be that of several hands. */
  ofSeveral: boolean;
  entered: () => void;
}

const done = 'The tally is entered. Thank you.';

/**
 * What was done, in counts where the work is counted, with the hours it took. Pressed without a line it waits here, with the
 * day on which it was written; where only the answer got lost, it is entered once all the same.
 */
export function TallyForm({ task, ofSeveral, entered }: TallyFormProps) {
  const { run, busy } = useKeptDeed(EnterTallyDeed);
  const { today } = useYard();
  const say = useSay();
  const [outcome, setOutcome] = useState<KeptOutcome<unknown> | null>(null);
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;
  const wrongAt = controlFor(refusal?.field, fields);
  const wrong = (id: string) => (wrongAt === id ? refusal?.message : null);
  const counted = task.estimate?.__typename === 'CountEstimate' ? task.estimate : null;

  async function submit(filled: Filled) {
    const input = {
      taskId: task.id,
      on: today,
      count: counted ? filled.number('count') : null,
      minutes: Math.round(filled.number('hours') * 60),
      finished: filled.ticked('finished'),
      note: filled.textOrNull('note'),
    };
    const answer = await run({ input }, { what: `Tally on “${task.title}”`, done });
    setOutcome(answer);
    if (answer.kind === 'done' || answer.kind === 'kept') filled.form.reset();
    if (answer.kind !== 'done') return;
    say('The tally is entered.');
    entered();
  }

  return (
    <Form send={submit} className="tally-form">
      <Answer outcome={outcome} done={done} fields={fields} />
      {counted ? (
        <Field
          id="tally-count"
          name="count"
          type="number"
          inputMode="numeric"
          min={0}
          step={1}
          defaultValue={0}
          label={`${capital(counted.unit)} done`}
          hint={`${counted.countLeft.toLocaleString('en')} of ${counted.count.toLocaleString('en')} are left.`}
          wrong={wrong('tally-count')}
        />
      ) : null}
      <Field
        id="tally-hours"
        name="hours"
        type="number"
        inputMode="decimal"
        min={0}
        step={0.25}
        defaultValue={1}
        label={ofSeveral ? 'Hours of work, of all hands together' : 'Hours it took you'}
        wrong={wrong('tally-hours')}
      />
      <Tick
        id="tally-finished"
        name="finished"
        label="This piece of work is finished"
        hint="It then waits for the shipwright to look at it."
      />
      <Note
        id="tally-note"
        name="note"
        label="A word about it"
        hint="What the next crew should know."
        wrong={wrong('tally-note')}
      />
      <button type="submit" className="deed" disabled={busy}>
        {busy ? 'Entering…' : 'Enter the tally'}
      </button>
    </Form>
  );
}
