import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { Field, Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Section } from '../parts/page.js';
import type { Book } from './timber.question.js';

const ChangeTimberSettingsDeed = graphql(`
  mutation ChangeTimberSettings($version: Int!, $input: TimberSettingsInput!, $reason: String!) {
    changeTimberSettings(version: $version, input: $input, reason: $reason) {
      __typename
      ... on TimberPayload {
        entryId
      }
      ...Refused
    }
  }
`);

type Settings = Book['settings'];

/** Each value with its label and where its default comes from. */
const values: {
  name: Exclude<keyof Settings, 'version' | 'changedBy' | 'changedReason' | '__typename'>;
  label: string;
  from: string;
}[] = [
  { name: 'fahrenheit', label: 'Air where the stock lies, °F', from: 'common practice' },
  { name: 'humidity', label: 'Relative humidity there, 0 to 1', from: 'common practice' },
  {
    name: 'plankingPercent',
    label: 'Planks are hung at this moisture or below, percent',
    from: 'NVIC 7-95, chapter 3.A, from memory',
  },
  {
    name: 'framesPercent',
    label: 'Frames are sawn at this or below, percent; 0 for any',
    from: 'common practice',
  },
  {
    name: 'usableShare',
    label: 'Sound share of a log’s diameter',
    from: 'common practice; measure your own',
  },
  { name: 'poundsACubicFoot', label: 'Weight, pounds a cubic foot', from: 'Wood Handbook, from memory' },
  {
    name: 'sawMarginMillimetres',
    label: 'Room round a pattern for bevel and saw, mm',
    from: 'common practice',
  },
  {
    name: 'grainRunOut',
    label: 'Greatest slope of grain along a piece; 0.125 is 1 in 8',
    from: 'common practice',
  },
  { name: 'leadDays', label: 'Days that stock takes to come once it is looked for', from: 'common practice' },
];
const fields: Record<string, string> = {
  ...Object.fromEntries(values.map(({ name }) => [name, `timber-${name}`])),
  reason: 'timber-reason',
};

/** What the book reckons with; the shipwright changes it with a reason. */
export function SettingsPart({
  book,
  decides,
  changed,
}: {
  book: Book;
  decides: boolean;
  changed: () => void;
}) {
  const { settings } = book;
  return (
    <Section title="What the book reckons with" id="timber-settings">
      <ul className="plain">
        {values.map(({ name, label, from }) => (
          <li key={name}>
            {label}: {settings[name] ?? 'any'} <span className="pencil">({from})</span>
          </li>
        ))}
      </ul>
      {settings.changedBy ? (
        <p className="pencil">
          Last changed by {settings.changedBy}: {settings.changedReason}
        </p>
      ) : (
        <p className="pencil">All of these are defaults.</p>
      )}
      {decides ? (
        <details className="fold">
          <summary>Change them</summary>
          <SettingsForm key={settings.version} settings={settings} changed={changed} />
        </details>
      ) : null}
    </Section>
  );
}

function SettingsForm({ settings, changed }: { settings: Settings; changed: () => void }) {
  const { run, busy } = useDeed(ChangeTimberSettingsDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;
  const wrongAt = controlFor(refusal?.field, fields);

  async function submit(filled: Filled) {
    const input = Object.fromEntries(
      values.flatMap(({ name }) => {
        const typed = filled.text(name);
        return typed === '' || typed === String(settings[name] ?? 0) ? [] : [[name, Number(typed)]];
      }),
    );
    const answer = await run({ version: settings.version, input, reason: filled.text('reason') });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('The change is kept.');
    changed();
  }

  return (
    <Form send={submit}>
      <Answer outcome={outcome} done="The change is kept." fields={fields} />
      {values.map(({ name, label }) => (
        <Field
          key={name}
          id={`timber-${name}`}
          name={name}
          inputMode="decimal"
          label={label}
          defaultValue={String(settings[name] ?? 0)}
          wrong={wrongAt === `timber-${name}` ? refusal?.message : null}
        />
      ))}
      <Note
        id="timber-reason"
        name="reason"
        label="Why"
        hint="It stands on record with your name."
        wrong={wrongAt === 'timber-reason' ? refusal?.message : null}
      />
      <button type="submit" className="deed" disabled={busy}>
        Keep the change
      </button>
    </Form>
  );
}
