import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { sayMoney } from './hours-words.js';
import { useOutcome } from './use-outcome.js';

const AddHourRateDeed = graphql(`
  mutation AddHourRate($input: HourRateInput!) {
    addHourRate(input: $input) {
      __typename
      ...Refused
    }
  }
`);

const fields = { from: 'rate-from', centsAnHour: 'rate-dollars', source: 'rate-source', kindId: 'rate-kind' };

interface Named {
  id: string;
  name: string;
}
interface Published {
  year: number;
  area: string;
  centsAnHour: number;
  source: string;
}

interface AddRateProps {
  kinds: readonly Named[];
  grants: readonly Named[];
  published: readonly Published[];
  added: () => void;
}

/** What an hour is worth from a day on, with where the figure comes from; a published one can be taken as it is. */
export function AddRate({ kinds, grants, published, added }: AddRateProps) {
  const { run, busy } = useDeed(AddHourRateDeed);
  const { outcome, words, wrong, settle } = useOutcome(fields);
  const [taken, setTaken] = useState<Published | null>(null);

  async function send(filled: Filled) {
    const answer = await run({
      input: {
        kindId: filled.textOrNull('kind'),
        grantId: filled.textOrNull('grant'),
        from: filled.text('from'),
        centsAnHour: Math.round(filled.number('dollars') * 100),
        source: filled.text('source'),
      },
    });
    if (!settle(answer, 'The rate is added.')) return;
    filled.form.reset();
    setTaken(null);
    added();
  }

  return (
    <details className="fold">
      <summary>Add a rate</summary>
      <Form send={send}>
        <Answer outcome={outcome} done={words} fields={fields} />
        <p>
          Funders ask for the pay for similar work (2 CFR 200.306); many take a published value of a
          volunteer’s hour for work that needs no trade.
        </p>
        <Choice
          id="rate-published"
          label="Take a published value"
          value={taken ? `${taken.year} ${taken.area}` : ''}
          onChange={(event) => {
            setTaken(published.find((one) => `${one.year} ${one.area}` === event.target.value) ?? null);
          }}
        >
          <option value="">none, I enter my own</option>
          {published.map((one) => (
            <option key={`${one.year} ${one.area}`} value={`${one.year} ${one.area}`}>
              {one.year}, {one.area}: {sayMoney(one.centsAnHour)}
            </option>
          ))}
        </Choice>
        <div key={taken?.source ?? ''}>
          <Field
            id="rate-dollars"
            name="dollars"
            type="number"
            step="0.01"
            min="0.01"
            label="Dollars an hour"
            defaultValue={taken ? (taken.centsAnHour / 100).toFixed(2) : ''}
            wrong={wrong('rate-dollars')}
          />
          <Field
            id="rate-from"
            name="from"
            type="date"
            label="From which day on"
            defaultValue={taken ? `${taken.year}-01-01` : ''}
            wrong={wrong('rate-from')}
          />
          <Field
            id="rate-source"
            name="source"
            label="Where the figure comes from"
            defaultValue={taken?.source ?? ''}
            wrong={wrong('rate-source')}
          />
        </div>
        <Choice id="rate-kind" name="kind" label="For which kind of work" wrong={wrong('rate-kind')}>
          <option value="">every kind without its own</option>
          {kinds.map((kind) => (
            <option key={kind.id} value={kind.id}>
              {kind.name}
            </option>
          ))}
        </Choice>
        <Choice id="rate-grant" name="grant" label="For which grant">
          <option value="">every grant without its own</option>
          {grants.map((grant) => (
            <option key={grant.id} value={grant.id}>
              {grant.name}
            </option>
          ))}
        </Choice>
        <button type="submit" className="deed" disabled={busy}>
          Add the rate
        </button>
      </Form>
    </details>
  );
}
