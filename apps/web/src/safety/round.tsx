import { graphql } from '../gql/gql.js';
import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Field, Tick } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { timeOf } from '../words/dates.js';
import { useOutcome } from '../hours/use-outcome.js';
import type { ToDo } from './safety.question.js';

const CloseTurnoutDeed = graphql(`
  mutation CloseTurnout($turnoutId: ID!, $items: [RoundItemInput!]!, $accountedIds: [ID!]!) {
    closeTurnout(turnoutId: $turnoutId, items: $items, accountedIds: $accountedIds) {
      __typename
      ...Refused
    }
  }
`);

/** The list, everybody by name, and the name of who went round. */
export function Round({ todo, closed }: { todo: ToDo; closed: (words: string) => void }) {
  const { me, timeZone } = useYard();
  const { run, busy } = useDeed(CloseTurnoutDeed);
  const { outcome, words, settle } = useOutcome({});
  const id = todo.turnout.id;

  async function send(filled: Filled) {
    const answer = await run({
      turnoutId: id,
      items: todo.items.map((item, index) => ({
        words: item,
        isDone: filled.ticked(`done-${index}`),
        note: filled.textOrNull(`note-${index}`),
      })),
      accountedIds: filled.all('there'),
    });
    if (settle(answer, 'The turnout is closed.')) closed('The turnout is closed. Thank you.');
  }

  return (
    <Form send={send}>
      <Answer outcome={outcome?.kind === 'done' ? null : outcome} done={words} />
      {todo.items.map((item, index) => (
        <div key={item}>
          <Tick id={`${id}-done-${index}`} name={`done-${index}`} label={item} />
          <Field id={`${id}-note-${index}`} name={`note-${index}`} label="If not: why, and who knows" />
        </div>
      ))}
      {todo.there.length ? (
        <fieldset>
          <legend>Seen or heard to leave</legend>
          {todo.there.map((one) => (
            <Tick
              key={one.volunteerId}
              id={`${id}-${one.volunteerId}`}
              name="there"
              value={one.volunteerId}
              label={`${one.name}, here since ${timeOf(one.arrivedAt, timeZone)}`}
            />
          ))}
        </fieldset>
      ) : (
        <p>Everybody who came has left.</p>
      )}
      <button type="submit" className="deed" disabled={busy}>
        I went round: {me.account.name}
      </button>
    </Form>
  );
}
