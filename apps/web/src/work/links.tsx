import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { capital } from '../words/amounts.js';
import { Choice, Field } from '../parts/field.js';
import { stateWords } from '../words/tasks.js';
import type { Task } from './task.question.js';
import { Form, type Filled } from '../parts/form.js';

const EditLinkDeed = graphql(`
  mutation EditLink($id: ID!, $version: Int!, $lagMinutes: Int, $lagKind: LagKind) {
    editLink(id: $id, version: $version, lagMinutes: $lagMinutes, lagKind: $lagKind) {
      __typename
      ...Refused
    }
  }
`);

type Link = Task['follows'][number];

/** What must come before and what waits for this, each link as a sentence. */
export function Links({ task, mayEdit, edited }: { task: Task; mayEdit: boolean; edited: () => void }) {
  return (
    <>
      <h3>Before it</h3>
      {task.follows.length ? (
        <ul className="links">
          {task.follows.map((link) => (
            <li key={link.id}>
              <p>
                <a href={to('work', link.before.id)}>{capital(link.sentence)}</a>.{' '}
                <span className="link-other">It is {stateWords[link.before.state]}.</span>
              </p>
              {mayEdit ? <EditLag key={link.version} link={link} edited={edited} /> : null}
            </li>
          ))}
        </ul>
      ) : (
        <p>It waits for nothing else.</p>
      )}
      <h3>After it</h3>
      {task.leadsTo.length ? (
        <ul className="links">
          {task.leadsTo.map((link) => (
            <li key={link.id}>
              <p>
                <a href={to('work', link.after.id)}>{link.after.title}</a>, {link.sentence}.{' '}
                <span className="link-other">It is {stateWords[link.after.state]}.</span>
              </p>
            </li>
          ))}
        </ul>
      ) : (
        <p>Nothing else waits for it.</p>
      )}
    </>
  );
}

/** The wait between the two, in hours of the yard's turnouts or of the calendar. */
function EditLag({ link, edited }: { link: Link; edited: () => void }) {
  const { run, busy } = useDeed(EditLinkDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const hoursId = `${link.id}-lag`;
  const fields = { lagMinutes: hoursId, lagKind: `${link.id}-kind` };
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;

  async function submit(filled: Filled) {
    const lagMinutes = Math.round(filled.number('hours') * 60);
    const lagKind = filled.text('kind') === 'ELAPSED' ? ('ELAPSED' as const) : ('WORKING' as const);
    const answer = await run({ id: link.id, version: link.version, lagMinutes, lagKind });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('The wait is changed.');
    edited();
  }

  return (
    <details className="fold">
      <summary>
        Change the wait<span className="unseen"> after {link.before.title}</span>
      </summary>
      <Form send={submit} className="row">
        <Answer outcome={outcome} done="Changed." fields={fields} />
        <Field
          id={hoursId}
          name="hours"
          type="number"
          inputMode="decimal"
          step={0.25}
          defaultValue={link.lagMinutes / 60}
          label="Hours between"
          hint="Below zero lets the second begin early."
          wrong={controlFor(refusal?.field, fields) === hoursId ? refusal?.message : null}
        />
        <Choice id={`${link.id}-kind`} name="kind" defaultValue={link.lagKind} label="Counted in">
          <option value="WORKING">hours of the yard’s turnouts</option>
          <option value="ELAPSED">hours of the calendar, nights too</option>
        </Choice>
        <button type="submit" className="quiet" disabled={busy}>
          Change the wait
        </button>
      </Form>
    </details>
  );
}
