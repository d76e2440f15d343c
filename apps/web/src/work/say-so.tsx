import { useState, type FormEvent } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { Field, Note } from '../parts/field.js';
import type { Task } from './task-page.js';

const PassTaskDeed = graphql(`
  mutation PassTask($taskId: ID!, $note: String) {
    passTask(taskId: $taskId, note: $note) {
      __typename
      ...Refused
    }
  }
`);

const SendTaskBackDeed = graphql(`
  mutation SendTaskBack($taskId: ID!, $countBack: Int, $reason: String!) {
    sendTaskBack(taskId: $taskId, countBack: $countBack, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

const fields = { note: 'pass-note', reason: 'back-reason', countBack: 'back-count' };

/** The shipwright passes work that is shown, or sends it back with what is to be done again. */
export function SaySo({ task, said }: { task: Task; said: () => void }) {
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

  async function passIt(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const note = String(new FormData(event.currentTarget).get('note')).trim() || null;
    settle(await pass.run({ taskId: task.id, note }), 'The work is passed.');
  }

  async function sendBack(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const values = new FormData(event.currentTarget);
    const countBack = counted ? Number(values.get('countBack')) : null;
    settle(
      await back.run({ taskId: task.id, countBack, reason: String(values.get('reason')).trim() }),
      'The work is sent back.',
    );
  }

  const forms = (
    <div className="say-so">
      <form onSubmit={passIt}>
        <Note
          id="pass-note"
          name="note"
          label="A word for the record"
          hint="Not needed."
          wrong={wrong('pass-note')}
        />
        <button type="submit" className="deed" disabled={pass.busy}>
          Pass this work
        </button>
      </form>
      <form onSubmit={sendBack} noValidate>
        <Note
          id="back-reason"
          name="reason"
          label="What is wrong with it"
          hint="The next crew reads this."
          required
          wrong={wrong('back-reason')}
        />
        {counted ? (
          <Field
            id="back-count"
            name="countBack"
            type="number"
            inputMode="numeric"
            min={0}
            defaultValue={0}
            label={`How many ${counted.unit} to do again`}
            wrong={wrong('back-count')}
          />
        ) : null}
        <button type="submit" className="quiet" disabled={back.busy}>
          Send it back
        </button>
      </form>
    </div>
  );
  return (
    <>
      <Answer outcome={outcome} done="Said." fields={fields} />
      {task.state === 'SHOWN' ? (
        <>
          <p>It is shown: look at it on the hull, then say.</p>
          {forms}
        </>
      ) : (
        <details className="fold" open={outcome !== null}>
          <summary>
            It is not shown yet: a tally that says it is finished shows it. Speak now all the same
          </summary>
          {forms}
        </details>
      )}
    </>
  );
}
