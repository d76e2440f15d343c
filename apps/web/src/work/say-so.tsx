import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { Field, Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import type { Estimate } from '../words/tasks.js';

const PassTaskDeed = graphql(`
  mutation PassTask($taskId: ID!, $note: String) {
    passTask(taskId: $taskId, note: $note) {
      __typename
      ...Refused
    }
  }
`);

const SendTaskBackDeed = graphql(`
  mutation SendTaskBack($taskId: ID!, $countBack: Int, $minutesBack: Int, $reason: String!) {
    sendTaskBack(taskId: $taskId, countBack: $countBack, minutesBack: $minutesBack, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

const fieldsOf = (of: string) => ({
  note: `pass-note${of}`,
  reason: `back-reason${of}`,
  countBack: `back-count${of}`,
  minutesBack: `back-hours${of}`,
});

/** The work as far as the say-so goes. */
export interface Shown {
  id: string;
  state: string;
  kind: string;
  estimate?: Estimate | null;
}

/** The shipwright, or who was named for it, passes work that is shown, or sends it back with what is to be done again. */
export function SaySo({ task, said, of = '' }: { task: Shown; said: () => void; of?: string }) {
  const fields = fieldsOf(of);
  const pass = useDeed(PassTaskDeed);
  const back = useDeed(SendTaskBackDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;
  const wrongAt = controlFor(refusal?.field, fields);
  const wrong = (id: string) => (wrongAt === id ? refusal?.message : null);
  const counted = task.estimate?.__typename === 'CountEstimate' ? task.estimate : null;

  function settle(answer: Outcome<unknown>, words: string) {
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say(words);
    said();
  }

  async function passIt(filled: Filled) {
    const note = filled.textOrNull('note');
    settle(await pass.run({ taskId: task.id, note }), 'The work is passed.');
  }

  async function sendBack(filled: Filled) {
    const countBack = counted ? filled.number('countBack') : null;
    const minutesBack = counted ? null : Math.round(filled.number('hoursBack') * 60);
    settle(
      await back.run({ taskId: task.id, countBack, minutesBack, reason: filled.text('reason') }),
      'The work is sent back.',
    );
  }

  const forms = (
    <div className="say-so">
      {task.state === 'PASSED' ? null : (
        <Form send={passIt}>
          <Note
            id={`pass-note${of}`}
            name="note"
            label="A word for the record"
            hint="Not needed."
            wrong={wrong(`pass-note${of}`)}
          />
          <button type="submit" className="deed" disabled={pass.busy}>
            Pass this work
          </button>
        </Form>
      )}
      <Form send={sendBack}>
        <Note
          id={`back-reason${of}`}
          name="reason"
          label="What is wrong with it"
          hint="The next crew reads this."
          required
          wrong={wrong(`back-reason${of}`)}
        />
        {counted ? (
          <Field
            id={`back-count${of}`}
            name="countBack"
            type="number"
            inputMode="numeric"
            min={0}
            defaultValue={0}
            label={`How many ${counted.unit} to do again`}
            wrong={wrong(`back-count${of}`)}
          />
        ) : (
          <Field
            id={`back-hours${of}`}
            name="hoursBack"
            type="number"
            inputMode="decimal"
            min={0.25}
            step={0.25}
            defaultValue={1}
            label="Person-hours to do again"
            wrong={wrong(`back-hours${of}`)}
          />
        )}
        <button type="submit" className="quiet" disabled={back.busy}>
          Send it back
        </button>
      </Form>
    </div>
  );
  return (
    <>
      <Answer outcome={outcome} done="Said." fields={fields} />
      {task.state === 'SHOWN' || task.state === 'PASSED' || task.kind === 'HOLD' ? (
        <>
          <p>
            {task.state === 'PASSED'
              ? 'It is passed. What turns out wrong later is sent back from here.'
              : task.kind === 'HOLD'
                ? 'It waits for your say-so.'
                : 'It is shown: look at it on the hull, then say.'}
          </p>
          {forms}
        </>
      ) : (
        <p>A tally that says it is finished shows it to you; then you pass it or send it back.</p>
      )}
    </>
  );
}
