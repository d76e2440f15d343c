import { graphql } from '../gql/gql.js';
import { useDeed } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Choice, Field, Tick } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { useOutcome } from './use-outcome.js';

const SetGrantDeed = graphql(`
  mutation SetGrant($input: GrantInput!) {
    setGrant(input: $input) {
      __typename
      ...Refused
    }
  }
`);

const SetWorkKindDeed = graphql(`
  mutation SetWorkKind($name: String!, $skillId: ID) {
    setWorkKind(name: $name, skillId: $skillId) {
      __typename
      ...Refused
    }
  }
`);

interface Named {
  id: string;
  name: string;
}

const grantFields = {
  name: 'grant-name',
  funder: 'grant-funder',
  awardNumber: 'grant-number',
  from: 'grant-from',
  to: 'grant-to',
};

/** Writes a grant down: who gives it, and which hours count for it. */
export function AddGrant({ kinds, added }: { kinds: readonly Named[]; added: () => void }) {
  const { run, busy } = useDeed(SetGrantDeed);
  const { outcome, words, wrong, settle } = useOutcome(grantFields);

  async function send(filled: Filled) {
    const answer = await run({
      input: {
        name: filled.text('name'),
        funder: filled.text('funder'),
        awardNumber: filled.textOrNull('awardNumber'),
        from: filled.text('from'),
        to: filled.text('to'),
        kindIds: filled.all('kinds'),
      },
    });
    if (!settle(answer, 'The grant is written down.')) return;
    filled.form.reset();
    added();
  }

  return (
    <details className="fold">
      <summary>Write a grant down</summary>
      <Form send={send}>
        <Answer outcome={outcome} done={words} fields={grantFields} />
        <Field id="grant-name" name="name" label="What you call it" wrong={wrong('grant-name')} />
        <Field id="grant-funder" name="funder" label="Who gives it" wrong={wrong('grant-funder')} />
        <Field
          id="grant-number"
          name="awardNumber"
          label="Their number for it"
          hint="If there is one."
          wrong={wrong('grant-number')}
        />
        <div className="side-by-side">
          <Field
            id="grant-from"
            name="from"
            type="date"
            label="Hours count from"
            wrong={wrong('grant-from')}
          />
          <Field id="grant-to" name="to" type="date" label="to" wrong={wrong('grant-to')} />
        </div>
        {kinds.length ? (
          <fieldset>
            <legend>Only these kinds of work (none ticked: all)</legend>
            {kinds.map((kind) => (
              <Tick key={kind.id} id={`grant-${kind.id}`} name="kinds" value={kind.id} label={kind.name} />
            ))}
          </fieldset>
        ) : null}
        <button type="submit" className="deed" disabled={busy}>
          Write it down
        </button>
      </Form>
    </details>
  );
}

const kindFields = { name: 'kind-name', skillId: 'kind-skill' };

/** A kind of work that is worth something else an hour. */
export function AddKind({ skills, added }: { skills: readonly Named[]; added: () => void }) {
  const { run, busy } = useDeed(SetWorkKindDeed);
  const { outcome, words, wrong, settle } = useOutcome(kindFields);

  async function send(filled: Filled) {
    const answer = await run({ name: filled.text('name'), skillId: filled.textOrNull('skill') });
    if (!settle(answer, 'The kind of work is added.')) return;
    filled.form.reset();
    added();
  }

  return (
    <details className="fold">
      <summary>Add a kind of work</summary>
      <Form send={send}>
        <Answer outcome={outcome} done={words} fields={kindFields} />
        <Field
          id="kind-name"
          name="name"
          label="What it is called"
          hint="Sawing, caulking…"
          wrong={wrong('kind-name')}
        />
        <Choice
          id="kind-skill"
          name="skill"
          label="Hours on seats for this skill are of it"
          wrong={wrong('kind-skill')}
        >
          <option value="">none: only where it is said</option>
          {skills.map((skill) => (
            <option key={skill.id} value={skill.id}>
              {skill.name}
            </option>
          ))}
        </Choice>
        <button type="submit" className="deed" disabled={busy}>
          Add it
        </button>
      </Form>
    </details>
  );
}
