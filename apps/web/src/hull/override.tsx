import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Field, Note, Tick } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';

const OverrideDeed = graphql(`
  mutation OverrideOpeningLimit(
    $id: ID!
    $version: Int!
    $reason: String!
    $elementIds: [ID!]
    $untilOn: LocalDate
  ) {
    overrideOpeningLimit(
      id: $id
      version: $version
      reason: $reason
      elementIds: $elementIds
      untilOn: $untilOn
    ) {
      __typename
      ...Refused
    }
  }
`);

interface OverrideProps {
  limit: { id: string; version: number };
  /** The pieces that may be set aside; all at first. */
  elements: { id: string; name: string }[];
  changed: () => void;
}

/** Sets a limit aside for some pieces, in the shipwright's name, with what holds her instead. */
export function Override({ limit, elements, changed }: OverrideProps) {
  const { run } = useDeed(OverrideDeed);
  const id = `override-${limit.id}`;
  return (
    <FoldForm
      summary="Set it aside for these, in my name"
      press="Set it aside"
      done="It is set aside and on the record."
      fields={{ reason: `${id}-reason`, untilOn: `${id}-until`, elementIds: `${id}-0` }}
      changed={changed}
      send={(filled) =>
        run({
          id: limit.id,
          version: limit.version,
          reason: filled.text('reason'),
          elementIds: filled.all('element'),
          untilOn: filled.textOrNull('untilOn'),
        })
      }
    >
      <fieldset>
        <legend>These may be open and are not counted</legend>
        {elements.map((element, at) => (
          <Tick
            key={element.id}
            id={`${id}-${at}`}
            name="element"
            value={element.id}
            label={element.name}
            defaultChecked
          />
        ))}
      </fieldset>
      <Note id={`${id}-reason`} name="reason" label="What holds her instead" />
      <Field
        id={`${id}-until`}
        name="untilOn"
        type="date"
        label="Until"
        hint="Its last day; from the day after, the limit counts them again. Empty: until it is taken back."
      />
    </FoldForm>
  );
}

const RestoreDeed = graphql(`
  mutation RestoreOpeningLimit($id: ID!, $version: Int!) {
    restoreOpeningLimit(id: $id, version: $version) {
      __typename
      ...Refused
    }
  }
`);

/** Lets a limit that was set aside hold again. */
export function TakeBack({
  limit,
  changed,
}: {
  limit: { id: string; version: number; name: string };
  changed: () => void;
}) {
  const { run, busy } = useDeed(RestoreDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  async function restore() {
    const answer = await run({ id: limit.id, version: limit.version });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('The limit holds again.');
    changed();
  }
  return (
    <>
      <Answer outcome={outcome} done="The limit holds again." />
      <button
        type="button"
        className="quiet"
        disabled={busy}
        aria-label={`Let it hold again: ${limit.name}`}
        onClick={() => void restore()}
      >
        Let it hold again
      </button>
    </>
  );
}
