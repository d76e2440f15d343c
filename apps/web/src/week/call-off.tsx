import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { Field } from '../parts/field.js';
import { sayDay } from '../words/dates.js';
import { Form, type Filled } from '../parts/form.js';

const CallOffDeed = graphql(`
  mutation CallOff($id: ID!, $version: Int!, $reason: String!) {
    cancelTurnout(id: $id, version: $version, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

interface ToCallOff {
  id: string;
  version: number;
  on: string;
}

/** Calling a turnout off, with a reason that its people read. */
export function CallOff({ turnout, calledOff }: { turnout: ToCallOff; calledOff: () => void }) {
  const { run, busy } = useDeed(CallOffDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const reasonId = `${turnout.id}-reason`;
  const fields = { reason: reasonId };
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;

  async function submit(filled: Filled) {
    const reason = filled.text('reason');
    const answer = await run({ id: turnout.id, version: turnout.version, reason });
    setOutcome(answer);
    if (answer.kind === 'done') say(`The turnout of ${sayDay(turnout.on)} is called off.`);
    calledOff();
  }

  return (
    <details className="fold">
      <summary>Call this turnout off: {sayDay(turnout.on)}</summary>
      <Form send={submit}>
        <Answer outcome={outcome} done="Called off." fields={fields} />
        <Field
          id={reasonId}
          name="reason"
          label="Why"
          hint="Its people read this."
          wrong={controlFor(refusal?.field, fields) ? refusal?.message : null}
        />
        <button type="submit" className="quiet" disabled={busy}>
          Call it off
        </button>
      </Form>
    </details>
  );
}
