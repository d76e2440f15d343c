import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { Field } from '../parts/field.js';
import { addDays } from '../words/dates.js';
import { Form, type Filled } from '../parts/form.js';

const MoveYardClockDeed = graphql(`
  mutation MoveYardClock($to: DateTime!) {
    moveYardClock(to: $to) {
      __typename
      ...Refused
    }
  }
`);

const fields = { to: 'clock-day' };

/** The demo yard's clock stands until it is moved, so that there is always work in its coming week. */
export function MoveClock({ moved }: { moved: () => void }) {
  const { today } = useYard();
  const { run, busy } = useDeed(MoveYardClockDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;

  async function submit(filled: Filled) {
    const day = filled.text('day');
    if (!day) return;
    const answer = await run({ to: `${day}T12:00:00Z` });
    setOutcome(answer);
    if (answer.kind === 'done') moved();
  }

  return (
    <Form send={submit}>
      <Answer outcome={outcome} done="The clock is moved." fields={fields} />
      <Field
        id="clock-day"
        name="day"
        type="date"
        label="Let it be"
        defaultValue={addDays(today, 7)}
        wrong={controlFor(refusal?.field, fields) ? refusal?.message : null}
      />
      <button type="submit" className="quiet" disabled={busy}>
        Move the clock
      </button>
    </Form>
  );
}
