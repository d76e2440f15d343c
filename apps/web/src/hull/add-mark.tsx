import { graphql } from '../gql/gql.js';
import type { WitnessMarkKind } from '../gql/graphql.js';
import { useDeed } from '../live/deed.js';
import { Choice, Field } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';

const AddDeed = graphql(`
  mutation AddWitnessMark($name: String!, $kind: WitnessMarkKind!, $frame: Int, $everyDays: Int!) {
    addWitnessMark(name: $name, kind: $kind, frame: $frame, everyDays: $everyDays) {
      __typename
      ...Refused
    }
  }
`);

/** One more distance that is measured on a rhythm. */
export function AddMark({ changed }: { changed: () => void }) {
  const { run } = useDeed(AddDeed);
  return (
    <FoldForm
      summary="Set another mark"
      press="Set this mark"
      done="The mark is set. It wants its reading after blocking before anything is opened."
      className="row"
      fields={{ name: 'mark-name', frame: 'mark-frame', everyDays: 'mark-days' }}
      changed={changed}
      send={(filled) =>
        run({
          name: filled.text('name'),
          kind: filled.text('kind') as WitnessMarkKind,
          frame: filled.text('frame') ? Math.trunc(filled.number('frame')) : null,
          everyDays: Math.trunc(filled.number('everyDays')),
        })
      }
    >
      <Field
        id="mark-name"
        name="name"
        label="What is measured, and where"
        hint="Breadth at frame 15, sheer to sheer"
      />
      <Choice id="mark-kind" name="kind" label="It is" defaultValue="BREADTH">
        <option value="BREADTH">a breadth from side to side</option>
        <option value="KEEL">a height of the keel line</option>
        <option value="SHEER">a height of the sheer</option>
        <option value="OTHER">another distance</option>
      </Choice>
      <Field id="mark-frame" name="frame" label="At frame" inputMode="numeric" hint="Empty where at none." />
      <Field
        id="mark-days"
        name="everyDays"
        type="number"
        min={1}
        max={90}
        defaultValue={7}
        label="Read every so many days"
      />
    </FoldForm>
  );
}
