import { graphql } from '../gql/gql.js';
import { useDeed } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { useOutcome } from '../hours/use-outcome.js';

const SetClosingListDeed = graphql(`
  mutation SetClosingList($items: [String!]!) {
    setClosingList(items: $items) {
      __typename
      ...Refused
    }
  }
`);

const fields = { items: 'closing-items' };

/** The yard's own list for the round, one thing a line. */
export function ClosingList({
  items,
  changed,
}: {
  items: readonly string[];
  changed: (words: string) => void;
}) {
  const { run, busy } = useDeed(SetClosingListDeed);
  const { outcome, words, wrong, settle } = useOutcome(fields);

  async function send(filled: Filled) {
    const lines = filled
      .text('items')
      .split('\n')
      .map((line) => line.trim())
      .filter(Boolean);
    if (settle(await run({ items: lines }), 'The list is set.'))
      changed('The list of the closing round is set.');
  }

  return (
    <details className="fold">
      <summary>What the round looks at</summary>
      <Form send={send}>
        <Answer outcome={outcome?.kind === 'done' ? null : outcome} done={words} fields={fields} />
        <Note
          id="closing-items"
          name="items"
          rows={9}
          label="One thing a line"
          hint="Left empty: the usual list."
          defaultValue={items.join('\n')}
          wrong={wrong('closing-items')}
        />
        <button type="submit" className="quiet" disabled={busy}>
          Set the list
        </button>
      </Form>
    </details>
  );
}
