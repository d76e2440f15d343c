import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Page } from '../parts/page.js';

const SignInDeed = graphql(`
  mutation SignIn($email: String!, $password: String!) {
    signIn(email: $email, password: $password) {
      __typename
      ...Refused
    }
  }
`);

const fields = { email: 'email', password: 'password' };

export function SignIn({ signedIn }: { signedIn: () => void }) {
  const { run, busy } = useDeed(SignInDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const wrong = outcome?.kind === 'refused' ? outcome.refusal : null;
  const wrongAt = controlFor(wrong?.field, fields);

  async function submit(filled: Filled) {
    const answer = await run({
      email: filled.text('email'),
      password: filled.asIs('password'),
    });
    if (answer.kind === 'done') signedIn();
    else setOutcome(answer);
  }

  return (
    <div className="door">
      <Page
        title="Sign in"
        heading="Ribband"
        lead={<p>Who does what, when, on the hull, so that she floats on the day.</p>}
      >
        <Answer outcome={outcome} done="" fields={fields} />
        <Form send={submit} aria-labelledby="sign-in">
          <h2 id="sign-in">Sign in</h2>
          <Field
            id="email"
            name="email"
            label="E-mail address"
            type="email"
            autoComplete="username"
            required
            wrong={wrongAt === 'email' ? wrong?.message : null}
          />
          <Field
            id="password"
            name="password"
            label="Password"
            type="password"
            autoComplete="current-password"
            required
            wrong={wrongAt === 'password' ? wrong?.message : null}
          />
          <button type="submit" className="deed" disabled={busy}>
            {busy ? 'Signing in…' : 'Sign in'}
          </button>
        </Form>
        <p className="hint">No account yet? The yard’s director opens one for you.</p>
      </Page>
    </div>
  );
}
