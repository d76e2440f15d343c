import { graphql } from '../gql/gql.js';
import type { Eyes } from '../gql/graphql.js';
import { useDeed } from '../live/deed.js';
import { Choice, Field } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';

const BindDeed = graphql(`
  mutation BindHoldPoint($taskId: ID!, $eyes: Eyes!, $noticeDays: Int!, $reason: String) {
    bindHoldPoint(taskId: $taskId, eyes: $eyes, noticeDays: $noticeDays, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

export const eyesWords: Record<Eyes, string> = {
  SURVEYOR: 'the surveyor',
  INSURER: 'the insurer',
  FUNDER: 'the funder',
  INSPECTOR: 'the inspector',
  SLING: 'a named person',
};

interface BindEyesProps {
  taskId: string;
  now: { eyes: Eyes; noticeDays: number } | null;
  changed: () => void;
}

/** Says whose eyes a say-so waits for, and how long before they want to be told. */
export function BindEyes({ taskId, now, changed }: BindEyesProps) {
  const { run } = useDeed(BindDeed);
  const id = `eyes-${taskId}`;
  return (
    <FoldForm
      summary={now ? 'Other eyes, or another notice' : 'Somebody else has to see it first'}
      press="Wait for them"
      done="It waits for them."
      className="row"
      fields={{ noticeDays: `${id}-days`, taskId: `${id}-who`, reason: `${id}-why` }}
      changed={changed}
      send={(filled) =>
        run({
          taskId,
          eyes: filled.text('eyes') as Eyes,
          noticeDays: Math.trunc(filled.number('days')),
          reason: filled.textOrNull('reason'),
        })
      }
    >
      <Choice id={`${id}-who`} name="eyes" label="Who has to see it" defaultValue={now?.eyes ?? 'SURVEYOR'}>
        {Object.entries(eyesWords).map(([eyes, words]) => (
          <option key={eyes} value={eyes}>
            {eyes === 'SLING' ? 'a named person: slung, and its zone clear' : words}
          </option>
        ))}
      </Choice>
      <Field
        id={`${id}-days`}
        name="days"
        type="number"
        min={0}
        max={180}
        label="Days of notice they want"
        defaultValue={now?.noticeDays ?? 0}
      />
      {now?.eyes === 'SLING' ? (
        <Field id={`${id}-why`} name="reason" label="Of others: why nobody need see the sling" />
      ) : null}
    </FoldForm>
  );
}
