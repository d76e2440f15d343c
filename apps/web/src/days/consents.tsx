import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { ConsentKind } from '../gql/graphql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Field, Tick } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Section } from '../parts/page.js';
import { list } from '../words/amounts.js';
import { sayShortDay } from '../words/dates.js';
import type { Person } from './days.question.js';

const GiveDeed = graphql(`
  mutation GiveConsent($volunteerId: ID!, $input: ConsentInput!) {
    giveConsent(volunteerId: $volunteerId, input: $input) {
      __typename
      ...Refused
    }
  }
`);

const WithdrawDeed = graphql(`
  mutation WithdrawConsent($consentId: ID!) {
    withdrawConsent(consentId: $consentId) {
      __typename
      ...Refused
    }
  }
`);

const kindWords: Record<ConsentKind, string> = {
  LIGHT: 'light work',
  EYE: 'hand tools, eyes protected',
  DUST: 'dusty work, with a mask',
  NOISE: 'noisy work, with muffs',
  STRAIN: 'the same movement for hours',
  LIFTING: 'carrying with others',
  CHEMICAL: 'paint and glue',
  WET: 'wet and cold work',
};
const kinds = Object.keys(kindWords) as ConsentKind[];
const fields = {
  guardianName: 'consent-name',
  guardianEmail: 'consent-email',
  how: 'consent-how',
  givenOn: 'consent-on',
  kinds: 'consent-LIGHT',
};

/** What a parent has said yes to for somebody under 18. */
export function ConsentsPart({ person, saved }: { person: Person; saved: () => void }) {
  const { me, today } = useYard();
  const giving = useDeed(GiveDeed);
  const withdrawing = useDeed(WithdrawDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const isMinor = (person.age ?? 18) < 18;
  if (!isMinor && person.consents.length === 0) return null;
  const mayWrite = me.role === 'COORDINATOR' || me.role === 'DIRECTOR';
  const mayEnd = mayWrite || me.volunteer?.id === person.id;

  async function give(filled: Filled) {
    const answer = await giving.run({
      volunteerId: person.id,
      input: {
        guardianName: filled.text('guardianName'),
        guardianEmail: filled.textOrNull('guardianEmail'),
        kinds: filled.all('kind') as ConsentKind[],
        how: filled.text('how'),
        givenOn: filled.text('givenOn') || today,
      },
    });
    setOutcome(answer);
    if (answer.kind === 'done') filled.form.reset();
    saved();
  }

  async function withdraw(consentId: string) {
    setOutcome(await withdrawing.run({ consentId }));
    saved();
  }

  return (
    <Section title="A parent’s yes" id="consents">
      <p>Under 18 a parent says yes first, by kind of work, and learns of coming and leaving.</p>
      <Answer outcome={outcome} done="Written down." fields={fields} />
      {person.consents.length === 0 ? <p>None is written down: no places until then.</p> : null}
      <ul className="kept">
        {person.consents.map((consent) => (
          <li key={consent.id}>
            <span>
              {consent.guardianName} said yes on {sayShortDay(consent.givenOn, today)} ({consent.how}) to{' '}
              {list(consent.kinds.map((kind) => kindWords[kind]))}. Written down by {consent.writtenBy}.
              {consent.withdrawnOn ? ` Ended on ${sayShortDay(consent.withdrawnOn, today)}.` : ''}
            </span>
            {mayEnd && !consent.withdrawnOn ? (
              <button
                type="button"
                className="quiet"
                disabled={withdrawing.busy}
                onClick={() => void withdraw(consent.id)}
              >
                End it today<span className="unseen">: the yes of {consent.guardianName}</span>
              </button>
            ) : null}
          </li>
        ))}
      </ul>
      {mayWrite && isMinor ? (
        <details className="fold">
          <summary>Write down a parent’s yes</summary>
          <Form send={give}>
            <Field id="consent-name" name="guardianName" label="Who says yes" autoComplete="off" />
            <Field
              id="consent-email"
              name="guardianEmail"
              type="email"
              label="Where news of coming and leaving go"
              hint="An e-mail address; leave it empty to ring them."
              autoComplete="off"
            />
            <fieldset>
              <legend>To</legend>
              <div className="day-ticks">
                {kinds.map((kind) => (
                  <Tick key={kind} id={`consent-${kind}`} name="kind" value={kind} label={kindWords[kind]} />
                ))}
              </div>
            </fieldset>
            <Field id="consent-how" name="how" label="How it was given" hint="Such as: on paper." />
            <Field id="consent-on" name="givenOn" type="date" label="On" defaultValue={today} />
            <button type="submit" className="deed" disabled={giving.busy}>
              Write it down
            </button>
          </Form>
        </details>
      ) : null}
    </Section>
  );
}
