import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Section } from '../parts/page.js';
import type { Person } from './days.question.js';

const SetPhoneDeed = graphql(`
  mutation SetPhone($volunteerId: ID!, $phone: String) {
    setPhone(volunteerId: $volunteerId, phone: $phone) {
      __typename
      ...Refused
    }
  }
`);

/** Where somebody is rung up, for themselves and the coordinator. */
export function PhonePart({ person, saved }: { person: Person; saved: () => void }) {
  const { run, busy } = useDeed(SetPhoneDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);

  async function submit(filled: Filled) {
    setOutcome(await run({ volunteerId: person.id, phone: filled.text('phone') || null }));
    saved();
  }

  return (
    <Section title="Telephone" id="telephone">
      <Form send={submit} key={person.phone ?? ''}>
        <Answer outcome={outcome} done="Kept." fields={{ phone: 'phone' }} />
        <Field
          id="phone"
          name="phone"
          label="Number"
          type="tel"
          autoComplete="off"
          hint="Only the coordinator and you see it. Leave it empty to have none kept."
          defaultValue={person.phone ?? ''}
        />
        <button type="submit" className="deed" disabled={busy}>
          Keep the number
        </button>
      </Form>
    </Section>
  );
}
