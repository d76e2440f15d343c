import { graphql } from '../gql/gql.js';
import { useDeed } from '../live/deed.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Field, Tick } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { timeOf } from '../words/dates.js';
import { useOutcome } from '../hours/use-outcome.js';
import type { ToDo } from './safety.question.js';

const CloseTurnoutDeed = graphql(`
  mutation CloseTurnout(
    $turnoutId: ID!
    $items: [RoundItemInput!]!
    $accountedIds: [ID!]!
    $setAside: [FireSetAsideInput!]!
  ) {
    closeTurnout(turnoutId: $turnoutId, items: $items, accountedIds: $accountedIds, setAside: $setAside) {
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
  // After a watch nobody goes round; its people are accounted for.
  const goesRound = todo.items.length > 0;

  async function send(filled: Filled) {
    const answer = await run({
      turnoutId: id,
      items: todo.items.map((item, index) => ({
        words: item,
        isDone: filled.ticked(`done-${index}`),
        note: filled.textOrNull(`note-${index}`),
      })),
      accountedIds: filled.all('there'),
      setAside: todo.fires.flatMap(({ taskId }) => {
        const reason = filled.textOrNull(`aside-${taskId}`);
        return reason === null ? [] : [{ taskId, reason }];
      }),
    });
    const said = goesRound ? 'The turnout is closed.' : 'Everybody is accounted for.';
    if (settle(answer, said)) closed(`${said} Thank you.`);
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
      {todo.fires.map(({ taskId, words: fire, mayOverride }) => (
        <div key={taskId}>
          <p className="gap">{fire}</p>
          <p>
            <a href={to('watch', id)}>The fire watch</a>
          </p>
          {mayOverride ? (
            <Field
              id={`${id}-aside-${taskId}`}
              name={`aside-${taskId}`}
              label="Close the turnout all the same, in your name, because"
              hint="Why it may be, and what is done instead. It stays with the round."
            />
          ) : null}
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
        {goesRound ? 'I went round' : 'They have left, as far as I know'}: {me.account.name}
      </button>
    </Form>
  );
}
