import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { forField, readLength, unitName } from '../words/lengths.js';
import type { Book, Flitch } from './timber.question.js';

const KeepFlitchDeed = graphql(`
  mutation KeepFlitch($input: FlitchInput!) {
    keepFlitch(input: $input) {
      __typename
      ... on TimberPayload {
        entryId
      }
      ...Refused
    }
  }
`);

/** A flitch as it is taped: a length, widths from butt to top, how far its middle bends off the straight. */
export function FlitchForm({
  book,
  flitch,
  changed,
}: {
  book: Book;
  flitch: Flitch | null;
  changed: () => void;
}) {
  const { units } = useYard().me.organisation;
  const { run, busy } = useDeed(KeepFlitchDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;
  const at = (name: string) => `flitch-${flitch?.id ?? 'new'}-${name}`;
  const names = [
    'mark',
    'species',
    'thickness',
    'length',
    'widths',
    'sweep',
    'sapwood',
    'expectedOn',
    'usedOn',
  ];
  const fields = Object.fromEntries(names.map((name) => [name, at(name)]));
  const wrongAt = controlFor(refusal?.field?.replace(/\[\d+\].*$/, ''), fields);
  const wrong = (name: string) => (wrongAt === at(name) ? refusal?.message : null);
  const taped = flitch?.taped;
  const inUnits = (millimetres: number | undefined) =>
    millimetres === undefined ? '' : forField(millimetres, units);
  const unit = unitName(units);

  async function submit(filled: Filled) {
    const length = (name: string) => readLength(filled.number(name), units);
    const answer = await run({
      input: {
        ...(flitch ? { id: flitch.id, version: flitch.version } : {}),
        mark: filled.text('mark'),
        species: filled.text('species'),
        use: filled.text('use') === 'PLANKING' ? 'PLANKING' : 'FRAMES',
        thickness: length('thickness'),
        length: length('length'),
        widths: filled
          .text('widths')
          .split(/[\s,;]+/)
          .filter(Boolean)
          .map((one) => readLength(Number(one), units)),
        sweep: length('sweep'),
        sapwood: length('sapwood'),
        defects: readDefects(filled.text('defects'), (typed) => readLength(typed, units)),
        logId: filled.textOrNull('logId'),
        sourceId: filled.textOrNull('sourceId'),
        expectedOn: filled.textOrNull('expectedOn'),
        lies: filled.textOrNull('lies'),
        reservedFor: filled.textOrNull('reservedFor'),
        usedOn: filled.textOrNull('usedOn'),
      },
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('The flitch is entered.');
    if (!flitch) filled.form.reset();
    changed();
  }

  return (
    <Form send={submit}>
      <Answer outcome={outcome} done="The flitch is entered." fields={fields} />
      <div className="row">
        <Field
          id={at('mark')}
          name="mark"
          label="Painted on it"
          defaultValue={flitch?.mark}
          wrong={wrong('mark')}
        />
        <Field
          id={at('species')}
          name="species"
          label="Wood"
          defaultValue={flitch?.species ?? 'Douglas fir'}
          wrong={wrong('species')}
        />
        <Choice id={at('use')} name="use" label="For" defaultValue={flitch?.use ?? 'FRAMES'}>
          <option value="FRAMES">frames</option>
          <option value="PLANKING">planks</option>
        </Choice>
      </div>
      <div className="row">
        <Field
          id={at('length')}
          name="length"
          inputMode="decimal"
          label={`Length, ${unit}`}
          defaultValue={inUnits(taped?.length)}
          wrong={wrong('length')}
        />
        <Field
          id={at('thickness')}
          name="thickness"
          inputMode="decimal"
          label={`Thickness, ${unit}`}
          defaultValue={inUnits(taped?.thickness)}
          wrong={wrong('thickness')}
        />
        <Field
          id={at('sapwood')}
          name="sapwood"
          inputMode="decimal"
          label={`Sapwood, ${unit}`}
          defaultValue={inUnits(taped?.sapwood) || '0'}
          wrong={wrong('sapwood')}
        />
      </div>
      <Field
        id={at('widths')}
        name="widths"
        inputMode="text"
        label={`Widths from butt to top, ${unit}`}
        hint="At equal distances, with blanks between: 24 22 20."
        defaultValue={taped?.widths.map(inUnits).join(' ') ?? ''}
        wrong={wrong('widths')}
      />
      <Field
        id={at('sweep')}
        name="sweep"
        inputMode="decimal"
        label={`Bend, ${unit}`}
        hint="Stretch a line from end to end along its middle: how far is it off, halfway? 0 if straight."
        defaultValue={inUnits(taped?.sweep) || '0'}
        wrong={wrong('sweep')}
      />
      <Field
        id={at('defects')}
        name="defects"
        label={`Not to be used, ${unit}`}
        hint="For each: from the butt, off the middle line, how long, how wide; a semicolon between two: 40 3 12 4; 70 -2 6 6."
        defaultValue={
          taped?.defects
            .map(({ along, across, length, width }) => [along, across, length, width].map(inUnits).join(' '))
            .join('; ') ?? ''
        }
      />
      <div className="row">
        <Choice id={at('log')} name="logId" label="Sawn from log" defaultValue={flitch?.log?.id ?? ''}>
          <option value="">none that is in the book</option>
          {book.logs.map((log) => (
            <option key={log.id} value={log.id}>
              {log.mark}
            </option>
          ))}
        </Choice>
        <Choice id={at('source')} name="sourceId" label="From" defaultValue={flitch?.source?.id ?? ''}>
          <option value="">not said</option>
          {book.sources.map((source) => (
            <option key={source.id} value={source.id}>
              {source.name}
            </option>
          ))}
        </Choice>
      </div>
      <div className="row">
        <Field
          id={at('expectedOn')}
          name="expectedOn"
          type="date"
          label="Promised for"
          hint="Empty when it is here."
          defaultValue={flitch?.expectedOn ?? ''}
          wrong={wrong('expectedOn')}
        />
        <Field id={at('lies')} name="lies" label="Where it lies" defaultValue={flitch?.lies ?? ''} />
      </div>
      <div className="row">
        <Field
          id={at('reservedFor')}
          name="reservedFor"
          label="Kept for a later job"
          hint="It is not laid up then."
          defaultValue={flitch?.reservedFor ?? ''}
        />
        <Field
          id={at('usedOn')}
          name="usedOn"
          type="date"
          label="Sawn up on"
          defaultValue={flitch?.usedOn ?? ''}
          wrong={wrong('usedOn')}
        />
      </div>
      <button type="submit" className="deed" disabled={busy}>
        {flitch ? 'Keep the change' : 'Enter the flitch'}
      </button>
    </Form>
  );
}

function readDefects(typed: string, length: (typed: number) => number) {
  return typed
    .split(';')
    .map((one) => one.trim())
    .filter(Boolean)
    .map((one) => {
      const [along = NaN, across = NaN, long = NaN, width = NaN] = one.split(/[\s,]+/).map(Number);
      return { along: length(along), across: length(across), length: length(long), width: length(width) };
    });
}
