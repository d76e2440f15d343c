import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Nothing } from '../parts/asked.js';
import { controlFor } from '../parts/control-for.js';
import { Choice, Field, Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { sayDay } from '../words/dates.js';
import type { Book, Log } from './timber.question.js';

const KeepTimberLogDeed = graphql(`
  mutation KeepTimberLog($input: TimberLogInput!) {
    keepTimberLog(input: $input) {
      __typename
      ... on TimberPayload {
        entryId
      }
      ...Refused
    }
  }
`);

/** Logs and what each gives by the log rules: arithmetic to plan with; the saw decides. */
export function Logs({ book, keeps, changed }: { book: Book; keeps: boolean; changed: () => void }) {
  const rules = book.logs[0]?.gives?.scales ?? [];
  return (
    <>
      {book.logs.length ? (
        <div className="scrolls" role="region" aria-label="What the logs give" tabIndex={0}>
          <table className="log-table">
            <caption>Board feet by each log rule, and what is sound of the log. The saw decides.</caption>
            <thead>
              <tr>
                <th scope="col">Log</th>
                <th scope="col">Small end, length</th>
                {rules.map((rule) => (
                  <th key={rule.rule} scope="col" title={rule.source}>
                    {rule.rule}
                  </th>
                ))}
                <th scope="col">Sound, square</th>
                <th scope="col">As futtocks</th>
                <th scope="col">As planks</th>
                <th scope="col">Weighs</th>
              </tr>
            </thead>
            <tbody>
              {book.logs.map((log) => (
                <LogRow key={log.id} log={log} />
              ))}
            </tbody>
          </table>
        </div>
      ) : (
        <Nothing>
          <p>No logs in the book.</p>
        </Nothing>
      )}
      {rules.length ? (
        <p className="pencil">
          {rules.map((rule) => `${rule.rule}: ${rule.source}`).join('. ')}. Shares of shaped stock: common
          practice.
        </p>
      ) : null}
      {keeps ? (
        <details className="fold">
          <summary>Enter a log</summary>
          <LogForm book={book} changed={changed} />
        </details>
      ) : null}
    </>
  );
}

function LogRow({ log }: { log: Log }) {
  const { gives } = log;
  return (
    <tr>
      <th scope="row">
        {log.mark}
        <span className="pencil">
          {' '}
          {log.species}
          {log.source ? `, ${log.source.name}` : ''}
          {log.cameOn ? `, came ${sayDay(log.cameOn)}` : ', still to come'}
          {log.reservedFor ? `; kept for ${log.reservedFor}` : ''}
        </span>
      </th>
      <td>
        {log.diameterInches} in, {log.lengthFeet} ft
      </td>
      {gives?.scales.map((scale) => (
        <td key={scale.rule}>{Math.round(scale.boardFeet)}</td>
      ))}
      <td>
        {gives?.usableInches.toFixed(1)} in, {gives?.squareInches.toFixed(1)} in
      </td>
      <td>
        {Math.round(gives?.futtocksLow ?? 0)} to {Math.round(gives?.futtocksHigh ?? 0)}
      </td>
      <td>
        {Math.round(gives?.planksLow ?? 0)} to {Math.round(gives?.planksHigh ?? 0)}
      </td>
      <td>{gives?.pounds.toLocaleString('en')} lb</td>
    </tr>
  );
}

const names = ['mark', 'species', 'diameterInches', 'lengthFeet', 'cameOn'];
const fields = Object.fromEntries(names.map((name) => [name, `log-${name}`]));

function LogForm({ book, changed }: { book: Book; changed: () => void }) {
  const { run, busy } = useDeed(KeepTimberLogDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;
  const wrongAt = controlFor(refusal?.field, fields);
  const wrong = (name: string) => (wrongAt === `log-${name}` ? refusal?.message : null);

  async function submit(filled: Filled) {
    const answer = await run({
      input: {
        mark: filled.text('mark'),
        species: filled.text('species'),
        diameterInches: filled.number('diameterInches'),
        lengthFeet: filled.number('lengthFeet'),
        cameOn: filled.textOrNull('cameOn'),
        sourceId: filled.textOrNull('sourceId'),
        reservedFor: filled.textOrNull('reservedFor'),
        note: filled.textOrNull('note'),
      },
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('The log is entered.');
    filled.form.reset();
    changed();
  }

  return (
    <Form send={submit}>
      <Answer outcome={outcome} done="The log is entered." fields={fields} />
      <div className="row">
        <Field id="log-mark" name="mark" label="Painted on its end" wrong={wrong('mark')} />
        <Field
          id="log-species"
          name="species"
          label="Wood"
          defaultValue="Douglas fir"
          wrong={wrong('species')}
        />
        <Choice id="log-source" name="sourceId" label="From">
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
          id="log-diameterInches"
          name="diameterInches"
          inputMode="decimal"
          label="Small end inside the bark, inches"
          wrong={wrong('diameterInches')}
        />
        <Field
          id="log-lengthFeet"
          name="lengthFeet"
          inputMode="decimal"
          label="Length, feet"
          wrong={wrong('lengthFeet')}
        />
        <Field id="log-cameOn" name="cameOn" type="date" label="Came on" wrong={wrong('cameOn')} />
      </div>
      <Field id="log-reserved" name="reservedFor" label="Kept for a later job" />
      <Note id="log-note" name="note" label="What to know about it" />
      <button type="submit" className="deed" disabled={busy}>
        Enter the log
      </button>
    </Form>
  );
}
