import { useState } from 'react';
import { useClient } from 'urql';
import type { PreviewWorkQuery, WorkChangeInput } from '../gql/graphql.js';
import { sayFault, useDeed, type Outcome, type Refusal } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { count } from '../words/amounts.js';
import { ScopeWords } from './scope.js';
import { ApplyWorkDeed, PreviewWorkQuestion } from './survey.question.js';

type Preview = Extract<PreviewWorkQuery['previewWork'], { __typename: 'WorkPreview' }>;

/** What a change would do to the work, shown before it is done; then it is done. */
export function ChangeWork({
  id,
  change,
  mayDo,
  done,
  fields = {},
}: {
  id: string;
  /** Without the reason, which is asked for here. */
  change: WorkChangeInput;
  mayDo: boolean;
  done: () => void;
  fields?: Record<string, string>;
}) {
  const client = useClient();
  const { run, busy } = useDeed(ApplyWorkDeed);
  const [preview, setPreview] = useState<Preview | null>(null);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const [looking, setLooking] = useState(false);

  async function look(filled: Filled) {
    setLooking(true);
    setOutcome(null);
    setPreview(null);
    const asked = { ...change, reason: filled.textOrNull('reason') };
    const { data, error } = await client
      .query(PreviewWorkQuestion, { change: asked }, { requestPolicy: 'network-only' })
      .toPromise();
    setLooking(false);
    if (error) setOutcome({ kind: 'fault', words: sayFault(error) });
    else if (data?.previewWork.__typename === 'WorkPreview') setPreview(data.previewWork);
    else setOutcome({ kind: 'refused', refusal: data?.previewWork as Refusal });
  }

  async function apply(form: HTMLFormElement | null) {
    const reason = form ? new FormData(form).get('reason') : null;
    const answer = await run({ change: { ...change, reason: typeof reason === 'string' ? reason : null } });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    setPreview(null);
    done();
  }

  return (
    <Form id={`${id}-form`} send={look}>
      <Answer
        outcome={outcome}
        done="Done. The plan is being reckoned anew."
        fields={{ reason: `${id}-reason`, ...fields }}
      />
      <Note id={`${id}-reason`} name="reason" label="Why, for those who come after" />
      <button type="submit" className="quiet" disabled={looking}>
        {looking ? 'Working it out…' : 'Show what would change'}
      </button>
      {preview ? (
        <div className="preview" role="status">
          <Changes preview={preview} />
          {mayDo ? (
            <button
              type="button"
              className="deed"
              disabled={busy}
              onClick={(event) => void apply(event.currentTarget.form)}
            >
              {busy ? 'Doing it…' : 'Do it, and plan anew'}
            </button>
          ) : (
            <p className="hint">The shipwright or the director does it.</p>
          )}
        </div>
      ) : null}
    </Form>
  );
}

function Changes({ preview }: { preview: Preview }) {
  const { added, changed, dropped, kept, hoursBefore, hoursAfter } = preview;
  const hours = Math.round(hoursAfter) - Math.round(hoursBefore);
  const { scope } = preview;
  return (
    <>
      <h3>What would change</h3>
      <p>
        {count(kept, 'task')} stay as they are, {count(added.length, 'task')} come,{' '}
        {count(changed.length, 'task')} change, {count(dropped.length, 'task')} are dropped;{' '}
        {Math.round(hoursAfter)} hours of work by the methods,{' '}
        {hours === 0 ? 'as now' : `${Math.abs(hours)} ${hours > 0 ? 'more' : 'fewer'} than now`}. Nothing is
        erased: tallies stay with their tasks.
      </p>
      <Touched title="Would come" list={added} />
      <Touched title="Would be other than now" list={changed} />
      <Touched title="Would be dropped" list={dropped} />
      {scope ? <ScopeWords scope={scope} /> : null}
    </>
  );
}

function Touched({
  title,
  list,
}: {
  title: string;
  list: { ref: string; title: string; fields?: string[] }[];
}) {
  if (list.length === 0) return null;
  return (
    <details>
      <summary>
        {title}: {list.length}
      </summary>
      <ul className="plain">
        {list.map((task) => (
          <li key={task.ref}>
            {task.title}
            {task.fields?.length ? <em> ({task.fields.join(', ')})</em> : null}
          </li>
        ))}
      </ul>
    </details>
  );
}
