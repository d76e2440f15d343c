import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import type { Tray } from './trays.question.js';

const MoveDeed = graphql(`
  mutation MoveFastenings($fromId: ID!, $toId: ID!, $count: Int!, $reason: String!) {
    moveFastenings(fromId: $fromId, toId: $toId, count: $count, reason: $reason) {
      __typename
      ... on MovePayload {
        from {
          id
        }
      }
      ...Refused
    }
  }
`);

const fields = { count: 'move-count', toId: 'move-to', reason: 'move-why' };

/** Says that fastenings of this tray lie in another; both tell it, and the reason. */
export function MoveFastenings({
  tray,
  trays,
  moved,
}: {
  tray: Tray;
  trays: { id: string; name: string; fastening: string }[];
  moved: () => void;
}) {
  const { run, busy } = useDeed(MoveDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const others = trays.filter((one) => one.fastening === tray.fastening && one.id !== tray.id);
  async function submit(filled: Filled) {
    const answer = await run({
      fromId: tray.id,
      toId: filled.text('to'),
      count: filled.number('count'),
      reason: filled.text('reason'),
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    filled.form.reset();
    moved();
  }
  if (!others.length) return <p>There is no other tray of {tray.fastening}.</p>;
  return (
    <Form send={submit}>
      <p>
        Count both trays first. Those not graded yet that belong to this tray and lie in another are moved
        here, with the reason; what nobody finds is graded as lost.
      </p>
      <Answer outcome={outcome} done="Both trays tell it now." fields={fields} />
      <div className="side-by-side">
        <Field id={fields.count} name="count" type="number" inputMode="numeric" min={1} label="How many" />
        <Choice id={fields.toId} name="to" label="They lie in tray">
          {others.map((one) => (
            <option key={one.id} value={one.id}>
              {one.name}
            </option>
          ))}
        </Choice>
      </div>
      <Field
        id={fields.reason}
        name="reason"
        label="Why"
        hint="Both were tipped into one bucket…"
        maxLength={500}
      />
      <button type="submit" className="quiet" disabled={busy}>
        Write the move down
      </button>
    </Form>
  );
}
