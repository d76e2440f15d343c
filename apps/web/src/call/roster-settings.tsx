import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';

const RosterSettingsQuestion = graphql(`
  query RosterSettings {
    rosterSettings {
      version
      lateHours
      staleHours
    }
  }
`);

const SetRosterSettingsDeed = graphql(`
  mutation SetRosterSettings($input: RosterSettingsInput!) {
    setRosterSettings(input: $input) {
      __typename
      ...Refused
    }
  }
`);

/** When leaving a place is late, and how old a sheet kept on a phone may be. For those who run the yard. */
export function RosterSettings() {
  const { me } = useYard();
  const [answer, again] = useAsk(RosterSettingsQuestion, {});
  const { run, busy } = useDeed(SetRosterSettingsDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  if (me.role !== 'COORDINATOR' && me.role !== 'DIRECTOR') return null;

  async function save(filled: Filled, version: number) {
    const input = { version, lateHours: filled.number('lateHours'), staleHours: filled.number('staleHours') };
    setOutcome(await run({ input }));
    again();
  }
  return (
    <details className="fold no-print">
      <summary>How this yard keeps its roster</summary>
      <Asked answer={answer} what="the settings" again={again}>
        {({ rosterSettings }) => (
          <Form key={rosterSettings.version} send={(filled) => save(filled, rosterSettings.version)}>
            <Answer
              outcome={outcome}
              done="Saved."
              fields={{ lateHours: 'late-hours', staleHours: 'stale-hours' }}
            />
            <Field
              id="late-hours"
              name="lateHours"
              label="Leaving a place is late from so many hours before it starts"
              hint="From then on those who could step in are asked at once."
              type="number"
              min={0}
              max={336}
              defaultValue={rosterSettings.lateHours}
            />
            <Field
              id="stale-hours"
              name="staleHours"
              label="A sheet kept on a phone is too old after so many hours"
              hint="Then no work is given out by it without a line."
              type="number"
              min={1}
              max={24}
              defaultValue={rosterSettings.staleHours}
            />
            <button type="submit" className="quiet" disabled={busy}>
              Save
            </button>
          </Form>
        )}
      </Asked>
    </details>
  );
}
