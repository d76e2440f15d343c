import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { EditTaskInput } from '../gql/graphql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { Field } from '../parts/field.js';
import { capital, sayRate } from '../words/amounts.js';
import type { Task } from './task.question.js';
import { Form, type Filled } from '../parts/form.js';

const EditTaskDeed = graphql(`
  mutation EditTask($id: ID!, $version: Int!, $input: EditTaskInput!) {
    editTask(id: $id, version: $version, input: $input) {
      __typename
      ...Refused
    }
  }
`);

const fields = {
  'estimate.count': 'edit-count',
  count: 'edit-count',
  low: 'edit-low',
  likely: 'edit-likely',
  high: 'edit-high',
  estimate: 'edit-likely',
  held: 'edit-held',
  notBefore: 'edit-not-before',
};

/** The estimate, a hold and an earliest day; the form shows what is there and changes what is changed. */
export function EditTask({ task, edited }: { task: Task; edited: () => void }) {
  const { run, busy } = useDeed(EditTaskDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;
  const wrongAt = controlFor(refusal?.field, fields);
  const wrong = (id: string) => (wrongAt === id ? refusal?.message : null);
  const { estimate } = task;
  const shown = estimate ? figuresOf(estimate) : null;

  async function submit(filled: Filled) {
    const answer = await run({
      id: task.id,
      version: task.version,
      input: readEdit(task, filled),
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('The task is changed; the plan is being reckoned again.');
    edited();
  }

  return (
    <details className="fold" open={outcome !== null}>
      <summary>Change the estimate, hold it, or set an earliest day</summary>
      <Form send={submit}>
        <Answer outcome={outcome} done="Changed." fields={fields} />
        {estimate && shown ? (
          <fieldset>
            <legend>The estimate</legend>
            {estimate.__typename === 'CountEstimate' ? (
              <Field
                id="edit-count"
                name="count"
                type="number"
                inputMode="numeric"
                min={0}
                defaultValue={estimate.count}
                label={`How many ${estimate.unit} in all`}
                wrong={wrong('edit-count')}
              />
            ) : null}
            <div className="row">
              {(['low', 'likely', 'high'] as const).map((point) => (
                <Field
                  key={point}
                  id={`edit-${point}`}
                  name={point}
                  type="number"
                  inputMode="decimal"
                  min={0}
                  step="any"
                  defaultValue={shown[point]}
                  label={`${capital(pointWords[point])}${point === 'likely' ? `, ${shown.unit}` : ''}`}
                  wrong={wrong(`edit-${point}`)}
                />
              ))}
            </div>
          </fieldset>
        ) : null}
        <Field
          id="edit-held"
          name="held"
          defaultValue={task.held ?? ''}
          label="Held, because"
          hint="Leave empty to let it go on."
          wrong={wrong('edit-held')}
        />
        <Field
          id="edit-not-before"
          name="notBefore"
          type="date"
          defaultValue={task.notBefore ?? ''}
          label="Not before"
          wrong={wrong('edit-not-before')}
        />
        <button type="submit" className="deed" disabled={busy}>
          {busy ? 'Changing…' : 'Change it'}
        </button>
      </Form>
    </details>
  );
}

const pointWords = { low: 'at least', likely: 'most likely', high: 'at most' };

interface Figures {
  low: string;
  likely: string;
  high: string;
  unit: string;
}

/** The three points in the units in which the page shows them: rates an hour, or hours. */
function figuresOf(estimate: NonNullable<Task['estimate']>): Figures {
  if (estimate.__typename === 'CountEstimate') {
    const { low, likely, high } = estimate.perPersonHour;
    return {
      low: sayRate(low),
      likely: sayRate(likely),
      high: sayRate(high),
      unit: `${estimate.unit} an hour, each person`,
    };
  }
  const { low, likely, high } =
    estimate.__typename === 'WorkEstimate' ? estimate.personMinutes : estimate.minutes;
  const hours = (minutes: number) => String(Number((minutes / 60).toFixed(2)));
  return {
    low: hours(low),
    likely: hours(likely),
    high: hours(high),
    unit: estimate.__typename === 'WorkEstimate' ? 'person-hours' : 'hours of the calendar',
  };
}

/** Only what differs from what was shown is sent. */
function readEdit(task: Task, filled: Filled): EditTaskInput {
  const input: EditTaskInput = {};
  const held = filled.text('held');
  if (held !== (task.held ?? '')) input.held = held || null;
  const notBefore = filled.text('notBefore');
  if (notBefore !== (task.notBefore ?? '')) input.notBefore = notBefore || null;
  const { estimate } = task;
  if (!estimate) return input;
  const shown = figuresOf(estimate);
  const points = (['low', 'likely', 'high'] as const).map((point) => filled.text(point));
  const total = filled.text('count');
  const changed =
    points.join() !== [shown.low, shown.likely, shown.high].join() ||
    (estimate.__typename === 'CountEstimate' && total !== String(estimate.count));
  if (!changed) return input;
  const [low = 0, likely = 0, high = 0] = points.map(Number);
  if (estimate.__typename === 'CountEstimate') {
    input.estimate = {
      byCount: { unit: estimate.unit, count: Number(total), perPersonHour: { low, likely, high } },
    };
  } else {
    const minutes = {
      low: Math.round(low * 60),
      likely: Math.round(likely * 60),
      high: Math.round(high * 60),
    };
    input.estimate = estimate.__typename === 'WorkEstimate' ? { personMinutes: minutes } : { minutes };
  }
  return input;
}
