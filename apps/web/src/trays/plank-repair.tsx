import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Field } from '../parts/field.js';
import { Form } from '../parts/form.js';
import type { Tray } from './trays.question.js';

const ConfirmDeed = graphql(`
  mutation ConfirmPlankRepair($trayId: ID!) {
    confirmPlankRepair(trayId: $trayId) {
      __typename
      ... on TrayPayload {
        tray {
          id
        }
      }
      ...Refused
    }
  }
`);

const DeclineDeed = graphql(`
  mutation DeclinePlankRepair($trayId: ID!, $reason: String!) {
    declinePlankRepair(trayId: $trayId, reason: $reason) {
      __typename
      ... on TrayPayload {
        tray {
          id
        }
      }
      ...Refused
    }
  }
`);

/** Heads came through the plank: the shipwright makes work of it, or says why not. */
export function PlankRepair({ tray, decided }: { tray: Tray; decided: () => void }) {
  const confirm = useDeed(ConfirmDeed);
  const decline = useDeed(DeclineDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const settle = (answer: Outcome<unknown>) => {
    setOutcome(answer);
    if (answer.kind === 'done') decided();
  };
  return (
    <div className="plank-repair">
      <Answer outcome={outcome} done="Said." fields={{ reason: 'no-repair' }} />
      <button
        type="button"
        className="deed"
        disabled={confirm.busy}
        onClick={() => void confirm.run({ trayId: tray.id }).then(settle)}
      >
        Make the repair of the plank a piece of work
      </button>
      <details className="fold">
        <summary>Nothing is to be done about it</summary>
        <Form
          send={async (filled) => {
            settle(await decline.run({ trayId: tray.id, reason: filled.text('reason') }));
          }}
        >
          <Field id="no-repair" name="reason" label="Why" maxLength={500} />
          <button type="submit" className="quiet" disabled={decline.busy}>
            Leave it so
          </button>
        </Form>
      </details>
    </div>
  );
}
