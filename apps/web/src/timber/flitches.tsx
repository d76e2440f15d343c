import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Nothing } from '../parts/asked.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { capital } from '../words/amounts.js';
import { sayDay, sayShortDay } from '../words/dates.js';
import { sayFeet, sayInches } from '../words/lengths.js';
import { FlitchDrawing } from './flitch-drawing.js';
import { FlitchForm } from './flitch-form.js';
import type { Book, Flitch } from './timber.question.js';

const NoteMoistureDeed = graphql(`
  mutation NoteMoisture($flitchId: ID!, $on: LocalDate!, $percent: Float!) {
    noteMoisture(flitchId: $flitchId, on: $on, percent: $percent) {
      __typename
      ... on TimberPayload {
        entryId
      }
      ...Refused
    }
  }
`);

interface Kept {
  book: Book;
  keeps: boolean;
  changed: () => void;
}

/** All flitches by their marks, each with its measures, readings and the day on which it can be sawn. */
export function Flitches({ book, keeps, changed }: Kept) {
  return (
    <>
      <p className="pencil">
        Where it lies, stock comes to rest at {book.restsAtPercent.toFixed(1)} percent (
        {Math.round(book.settings.fahrenheit)} °F, {Math.round(book.settings.humidity * 100)} percent
        humidity). Planks are hung at {book.settings.plankingPercent} or below.
      </p>
      {keeps ? (
        <details className="fold">
          <summary>Enter a flitch</summary>
          <FlitchForm book={book} flitch={null} changed={changed} />
        </details>
      ) : null}
      {book.flitches.length ? (
        <ul className="flitches">
          {book.flitches.map((flitch) => (
            <li key={flitch.id}>
              <FlitchCard book={book} flitch={flitch} keeps={keeps} changed={changed} />
            </li>
          ))}
        </ul>
      ) : (
        <Nothing>
          <p>No flitches yet. Tape one and enter it: length, widths, how far it bends.</p>
        </Nothing>
      )}
    </>
  );
}

function FlitchCard({ book, flitch, keeps, changed }: Kept & { flitch: Flitch }) {
  const { units } = useYard().me.organisation;
  const { taped } = flitch;
  const placed = book.kept?.placed.filter((one) => one.flitchId === flitch.id) ?? [];
  const readings = flitch.readings.filter((one) => !one.withdrawnReason);
  return (
    <article>
      <h3>{flitch.mark}</h3>
      <FlitchDrawing flitch={flitch} placed={placed} />
      <p>
        {capital(flitch.species)}, for {flitch.use === 'FRAMES' ? 'frames' : 'planks'}:{' '}
        {sayFeet(taped.length, units)} long,{' '}
        {taped.widths.map((width) => sayInches(width, units)).join(' to ')} wide,{' '}
        {sayInches(taped.thickness, units)} thick
        {taped.sweep ? `, bends ${sayInches(taped.sweep, units)}` : ', straight'}.
      </p>
      <p className="pencil">
        {[
          flitch.log ? `From log ${flitch.log.mark}` : '',
          flitch.source ? `by ${flitch.source.name}` : '',
          flitch.lies ? `lies ${flitch.lies}` : '',
        ]
          .filter(Boolean)
          .join('; ')}
        {readings.length
          ? ` · ${readings.map((one) => `${one.percent} percent on ${sayShortDay(one.on)}`).join(', ')}: ${flitch.wetness}`
          : ''}
      </p>
      {flitch.reservedFor ? <p className="gap">Kept for a later job: {flitch.reservedFor}.</p> : null}
      {flitch.usedOn ? (
        <p>Sawn up on {sayDay(flitch.usedOn)}.</p>
      ) : flitch.ready && !flitch.reservedFor ? (
        <p className={flitch.ready.on ? undefined : 'gap'}>{capital(flitch.ready.why)}.</p>
      ) : null}
      {keeps && !flitch.usedOn ? (
        <>
          <details className="fold">
            <summary>Enter a moisture reading</summary>
            <MoistureForm flitch={flitch} changed={changed} />
          </details>
          <details className="fold">
            <summary>Change {flitch.mark}</summary>
            <FlitchForm book={book} flitch={flitch} changed={changed} />
          </details>
        </>
      ) : null}
    </article>
  );
}

function MoistureForm({ flitch, changed }: { flitch: Flitch; changed: () => void }) {
  const { today } = useYard();
  const { run, busy } = useDeed(NoteMoistureDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const id = `moisture-${flitch.id}`;

  async function submit(filled: Filled) {
    const answer = await run({
      flitchId: flitch.id,
      on: filled.text('on') || today,
      percent: filled.number('percent'),
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('The reading is entered.');
    filled.form.reset();
    changed();
  }

  return (
    <Form send={submit}>
      <Answer outcome={outcome} done="The reading is entered." fields={{ on: `${id}-on`, percent: id }} />
      <div className="row">
        <Field id={id} name="percent" type="number" inputMode="decimal" step={0.5} min={1} label="Percent" />
        <Field id={`${id}-on`} name="on" type="date" label="On" defaultValue={today} />
      </div>
      <button type="submit" className="quiet" disabled={busy}>
        Enter the reading
      </button>
    </Form>
  );
}
