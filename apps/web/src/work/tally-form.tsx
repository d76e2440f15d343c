import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
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
  task: { id: string; estimate?: Estimate | null };
  /** Whether the tally may be that of several hands. */
  ofSeveral: boolean;
  entered: () => void;
}

/** What was done, in counts where the work is counted, with the hours it took. */
export function TallyForm({ task, ofSeveral, entered }: TallyFormProps) {
  const { run, busy } = useDeed(EnterTallyDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;
  const wrongAt = controlFor(refusal?.field, fields);
  const wrong = (id: string) => (wrongAt === id ? refusal?.message : null);
  const counted = task.estimate?.__typename === 'CountEstimate' ? task.estimate : null;

  async function submit(filled: Filled) {
    const answer = await run({
      input: {
        taskId: task.id,
        count: counted ? filled.number('count') : null,
        minutes: Math.round(filled.number('hours') * 60),
        finished: filled.ticked('finished'),
        note: filled.textOrNull('note'),
      },
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    filled.form.reset();
    say('The tally is entered.');
    entered();
  }

  return (
    <Form send={submit} className="tally-form">
      <Answer outcome={outcome} done="The tally is entered. Thank you." fields={fields} />
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
