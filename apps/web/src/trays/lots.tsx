import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { sayDollars } from '../words/amounts.js';
import { sayShortDay } from '../words/dates.js';
import type { Lot } from './trays.question.js';

const AddLotDeed = graphql(`
  mutation AddLot($input: LotInput!) {
    addLot(input: $input) {
      __typename
      ... on LotPayload {
        lot {
          id
        }
      }
      ...Refused
    }
  }
`);

const fields = {
  name: 'lot-name',
  fastening: 'lot-kind',
  size: 'lot-size',
  count: 'lot-count',
  source: 'lot-source',
  priceCents: 'lot-price',
  cameOn: 'lot-came',
};

/** Lots of bought fastenings, and a form for the next one. */
export function Lots({ lots, kinds, added }: { lots: Lot[]; kinds: string[]; added: () => void }) {
  const { today } = useYard();
  return (
    <>
      {lots.length ? (
        <ul className="plain">
          {lots.map((lot) => (
            <li key={lot.id}>
              <span className="pencil">{sayShortDay(lot.cameOn, today)}</span> {lot.count} {lot.name},{' '}
              {lot.size}, from {lot.source}
              {typeof lot.priceCents === 'number' ? `, ${sayDollars(lot.priceCents)}` : ''}: {lot.left} in no
              tray yet.
            </li>
          ))}
        </ul>
      ) : (
        <p>Nothing has been bought yet.</p>
      )}
      <AddLot kinds={kinds} added={added} />
    </>
  );
}

function AddLot({ kinds, added }: { kinds: string[]; added: () => void }) {
  const { today } = useYard();
  const { run, busy } = useDeed(AddLotDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  async function submit(filled: Filled) {
    const price = filled.textOrNull('price');
    const answer = await run({
      input: {
        name: filled.text('name'),
        fastening: filled.text('kind'),
        size: filled.text('size'),
        count: filled.number('count'),
        source: filled.text('source'),
        priceCents: price === null ? null : Math.round(Number(price) * 100),
        cameOn: filled.text('came'),
      },
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    filled.form.reset();
    added();
  }
  return (
    <details className="fold">
      <summary>Write down a lot that came</summary>
      <Form send={submit}>
        <Answer outcome={outcome} done="The lot is written down." fields={fields} />
        <div className="side-by-side">
          <Field id={fields.name} name="name" label="What they are" hint="Galvanized boat nails…" />
          <Field id={fields.size} name="size" label="Size" hint="3/8 x 5 1/2 in" />
          <Choice id={fields.fastening} name="kind" label="They match">
            {kinds.map((kind) => (
              <option key={kind}>{kind}</option>
            ))}
          </Choice>
          <Field id={fields.count} name="count" type="number" inputMode="numeric" min={1} label="How many" />
          <Field id={fields.source} name="source" label="From where" />
          <Field
            id={fields.priceCents}
            name="price"
            type="number"
            inputMode="decimal"
            min={0}
            label="Price, dollars"
          />
          <Field
            id={fields.cameOn}
            name="came"
            type="date"
            max={today}
            defaultValue={today}
            label="Came on"
          />
        </div>
        <button type="submit" className="quiet" disabled={busy}>
          Write the lot down
        </button>
      </Form>
    </details>
  );
}
