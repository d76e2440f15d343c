import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Page, Section } from '../parts/page.js';

const ChangePasswordDeed = graphql(`
  mutation ChangePassword($old: String!, $new: String!) {
    changePassword(old: $old, new: $new) {
      __typename
      ...Refused
    }
  }
`);

const fields = { old: 'old-password', new: 'new-password' };

/** One's own account. */
export function AccountPage() {
  const { me } = useYard();
  return (
    <Page
      title="My account"
      lead={
        <p>
          {me.account.name}, {me.account.email}
        </p>
      }
    >
      <Section title="Change my password" id="change">
        <ChangePassword changed={() => undefined} />
      </Section>
    </Page>
  );
}

/** Whoever comes with a password that someone else has seen chooses their own before anything else. */
export function FirstPassword({ changed }: { changed: () => void }) {
  return (
    <div className="door">
      <Page title="Choose a password" lead={<p>The one that you were given works once. Choose your own.</p>}>
        <ChangePassword changed={changed} />
      </Page>
    </div>
  );
}

function ChangePassword({ changed }: { changed: () => void }) {
  const { run, busy } = useDeed(ChangePasswordDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;
  const wrongAt = controlFor(refusal?.field, fields);
  const wrong = (id: string) => (wrongAt === id ? refusal?.message : null);

  async function submit(filled: Filled) {
    const answer = await run({ old: filled.asIs('old'), new: filled.asIs('new') });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    filled.form.reset();
    changed();
  }

  return (
    <Form send={submit}>
      <Answer
        outcome={outcome}
        done="Your password is changed, and you are signed out everywhere else."
        fields={fields}
      />
      <Field
        id="old-password"
        name="old"
        type="password"
        autoComplete="current-password"
        label="The password until now"
        wrong={wrong('old-password')}
      />
      <Field
        id="new-password"
        name="new"
        type="password"
        autoComplete="new-password"
        label="The new one"
        hint="At least 10 letters; a few words do well."
        wrong={wrong('new-password')}
      />
      <button type="submit" className="deed" disabled={busy}>
        {busy ? 'Changing…' : 'Change it'}
      </button>
    </Form>
  );
}
