import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { Role } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { controlFor } from '../parts/control-for.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Page, Section } from '../parts/page.js';

const AccountsQuestion = graphql(`
  query Accounts {
    accounts {
      id
      name
      email
      role
      hasOneTimePassword
      volunteerId
    }
    volunteers(first: 200) {
      edges {
        node {
          id
          name
        }
      }
    }
  }
`);

const OpenAccountDeed = graphql(`
  mutation OpenAccount($input: OpenAccountInput!) {
    openAccount(input: $input) {
      __typename
      ... on OpenAccountPayload {
        oneTimePassword
        account {
          id
          name
        }
      }
      ...Refused
    }
  }
`);

const roleWords: Record<Role, string> = {
  DIRECTOR: 'director',
  COORDINATOR: 'coordinator',
  SHIPWRIGHT: 'shipwright',
  VOLUNTEER: 'volunteer',
};

const fields = {
  email: 'account-email',
  name: 'account-name',
  role: 'account-role',
  volunteerId: 'account-hand',
};

/** Who can sign in, and letting in one more. */
export function Accounts() {
  const [answer, again] = useAsk(AccountsQuestion, {});
  return (
    <Page title="Accounts" lead={<p>Who can sign in at this yard.</p>}>
      <Asked answer={answer} what="the accounts" again={again}>
        {({ accounts, volunteers }) => (
          <>
            <ul className="plain">
              {accounts.map((account) => (
                <li key={account.id}>
                  {account.name}, {roleWords[account.role]} <span className="pencil">{account.email}</span>
                  {account.hasOneTimePassword ? '. Has not chosen a password yet.' : ''}
                </li>
              ))}
            </ul>
            <Section title="Open an account" id="open-account">
              <OpenAccount
                crew={volunteers.edges
                  .map((edge) => edge.node)
                  .filter((hand) => !accounts.some((account) => account.volunteerId === hand.id))}
                opened={again}
              />
            </Section>
          </>
        )}
      </Asked>
    </Page>
  );
}

function OpenAccount({ crew, opened }: { crew: { id: string; name: string }[]; opened: () => void }) {
  const { run, busy } = useDeed(OpenAccountDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const [made, setMade] = useState<{ name: string; password: string } | null>(null);
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;
  const wrongAt = controlFor(refusal?.field, fields);
  const wrong = (id: string) => (wrongAt === id ? refusal?.message : null);

  async function submit(filled: Filled) {
    const answer = await run({
      input: {
        email: filled.text('email'),
        name: filled.text('name'),
        role: filled.text('role') as Role,
        volunteerId: filled.textOrNull('volunteerId'),
      },
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    setMade({ name: answer.done.account.name, password: answer.done.oneTimePassword });
    filled.form.reset();
    opened();
  }

  return (
    <Form send={submit}>
      <Answer outcome={outcome} done="The account is open." fields={fields} />
      {made ? (
        <p className="answer answer-yes">
          First password of {made.name}: <code>{made.password}</code> It is shown only now. Hand it over
          yourself.
        </p>
      ) : null}
      <Field id="account-name" name="name" label="Name" autoComplete="off" wrong={wrong('account-name')} />
      <Field
        id="account-email"
        name="email"
        type="email"
        label="E-mail address"
        autoComplete="off"
        wrong={wrong('account-email')}
      />
      <Choice
        id="account-role"
        name="role"
        label="Comes as"
        defaultValue="VOLUNTEER"
        wrong={wrong('account-role')}
      >
        {Object.entries(roleWords).map(([role, words]) => (
          <option key={role} value={role}>
            {words}
          </option>
        ))}
      </Choice>
      <Choice
        id="account-hand"
        name="volunteerId"
        label="Is in the crew as"
        hint="Needed for places and days of their own."
        wrong={wrong('account-hand')}
      >
        <option value="">nobody</option>
        {crew.map((hand) => (
          <option key={hand.id} value={hand.id}>
            {hand.name}
          </option>
        ))}
      </Choice>
      <button type="submit" className="deed" disabled={busy}>
        {busy ? 'Opening…' : 'Open it'}
      </button>
    </Form>
  );
}
