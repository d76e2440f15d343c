import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { useOutcome } from '../hours/use-outcome.js';
import { list } from '../words/amounts.js';
import { addDays, sayShortDay } from '../words/dates.js';

const DelegationsQuestion = graphql(`
  query Delegations {
    delegations {
      id
      scope
      names
      from
      until
      reason
      givenBy
      revokedAt
      revokedBy
      hand {
        volunteerId
        name
      }
    }
    skills {
      id
      name
    }
    volunteers(first: 200) {
      edges {
        node {
          id
          name
        }
      }
    }
    tasks(first: 200) {
      edges {
        node {
          id
          title
          position
        }
      }
    }
  }
`);

const GiveSaySoDeed = graphql(`
  mutation GiveSaySo($input: DelegationInput!) {
    giveSaySo(input: $input) {
      __typename
      ...Refused
    }
  }
`);

const RevokeSaySoDeed = graphql(`
  mutation RevokeSaySo($id: ID!) {
    revokeSaySo(id: $id) {
      __typename
      ...Refused
    }
  }
`);

const fields = {
  volunteerId: 'give-who',
  names: 'give-names',
  from: 'give-from',
  until: 'give-until',
  reason: 'give-reason',
};
const scopes = {
  ALL: 'all work',
  POSITION: 'work at some places',
  SKILL: 'work that asks for some skills',
  KIND: 'some kinds of work',
  TASKS: 'some pieces of work',
} as const;
const kinds = {
  work: 'work',
  fixed: 'work of a fixed length',
  elapsed: 'time that passes',
  hold: 'hold points',
};

/** To whom the say-so is given while the lead is away, over what, until when; and taking it back. */
export function DelegationsPart() {
  const { today } = useYard();
  const [answer, again] = useAsk(DelegationsQuestion, {});
  const give = useDeed(GiveSaySoDeed);
  const revoke = useDeed(RevokeSaySoDeed);
  const { outcome, words, wrong, settle } = useOutcome(fields);
  const [scope, setScope] = useState<keyof typeof scopes>('ALL');

  async function send(filled: Filled) {
    const given = await give.run({
      input: {
        volunteerId: filled.text('who'),
        scope,
        names: scope === 'ALL' ? [] : filled.all('names'),
        from: filled.text('from'),
        until: filled.text('until'),
        reason: filled.text('reason'),
      },
    });
    if (!settle(given, 'The say-so is given.')) return;
    filled.form.reset();
    again();
  }

  async function takeBack(id: string) {
    if (settle(await revoke.run({ id }), 'It is taken back. What was said meanwhile stands.')) again();
  }

  return (
    <Asked answer={answer} what="who may say so" again={again}>
      {({ delegations, skills, volunteers, tasks }) => {
        const positions = [...new Set(tasks.edges.flatMap(({ node }) => node.position ?? []))].sort();
        const choices: Record<keyof typeof scopes, { value: string; words: string }[]> = {
          ALL: [],
          POSITION: positions.map((value) => ({ value, words: value })),
          SKILL: skills.map((skill) => ({ value: skill.id, words: skill.name })),
          KIND: Object.entries(kinds).map(([value, said]) => ({ value, words: said })),
          TASKS: tasks.edges.map(({ node }) => ({ value: node.id, words: node.title })),
        };
        const said = (of: keyof typeof scopes, names: readonly string[]) =>
          of === 'ALL'
            ? scopes.ALL
            : list(names.map((name) => choices[of].find((one) => one.value === name)?.words ?? name));
        return (
          <>
            <Answer outcome={outcome} done={words} fields={fields} />
            <ul className="plain">
              {delegations.map((one) => (
                <li key={one.id}>
                  <strong>{one.hand.name}</strong>: {said(one.scope, one.names)},{' '}
                  {sayShortDay(one.from, today)} to {sayShortDay(one.until, today)}, for {one.givenBy}.{' '}
                  {one.reason}.{' '}
                  {one.revokedAt ? (
                    <span className="pencil">Taken back by {one.revokedBy}.</span>
                  ) : one.until < today ? (
                    <span className="pencil">Over.</span>
                  ) : (
                    <button
                      type="button"
                      className="quiet"
                      disabled={revoke.busy}
                      onClick={() => void takeBack(one.id)}
                    >
                      Take it back from {one.hand.name}
                    </button>
                  )}
                </li>
              ))}
            </ul>
            <details className="fold">
              <summary>Give the say-so to somebody for a while</summary>
              <Form send={send}>
                <Choice id="give-who" name="who" label="To whom" wrong={wrong('give-who')}>
                  {volunteers.edges.map(({ node }) => (
                    <option key={node.id} value={node.id}>
                      {node.name}
                    </option>
                  ))}
                </Choice>
                <Choice
                  id="give-scope"
                  label="Over"
                  value={scope}
                  onChange={(event) => {
                    setScope(event.target.value as keyof typeof scopes);
                  }}
                >
                  {Object.entries(scopes).map(([value, saidScope]) => (
                    <option key={value} value={value}>
                      {saidScope}
                    </option>
                  ))}
                </Choice>
                {scope === 'ALL' ? null : (
                  <Choice
                    id="give-names"
                    name="names"
                    label="Which"
                    multiple
                    size={8}
                    key={scope}
                    wrong={wrong('give-names')}
                  >
                    {choices[scope].map((one) => (
                      <option key={one.value} value={one.value}>
                        {one.words}
                      </option>
                    ))}
                  </Choice>
                )}
                <div className="side-by-side">
                  <Field
                    id="give-from"
                    name="from"
                    type="date"
                    label="From"
                    defaultValue={today}
                    wrong={wrong('give-from')}
                  />
                  <Field
                    id="give-until"
                    name="until"
                    type="date"
                    label="Until"
                    defaultValue={addDays(today, 7)}
                    wrong={wrong('give-until')}
                  />
                </div>
                <Field
                  id="give-reason"
                  name="reason"
                  label="Why"
                  hint="Off sick, away…"
                  wrong={wrong('give-reason')}
                />
                <button type="submit" className="deed" disabled={give.busy}>
                  Give it
                </button>
              </Form>
            </details>
          </>
        );
      }}
    </Asked>
  );
}
