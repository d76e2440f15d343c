import { graphql } from '../gql/gql.js';
import { useState } from 'react';
import { useDeed, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Section } from '../parts/page.js';
import { capital, count } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';
import { sayFeet, sayInches } from '../words/lengths.js';
import { boxOf } from './flitch-drawing.js';
import type { Book, Wood } from './timber.question.js';

const PromiseStockDeed = graphql(`
  mutation PromiseStock($piece: ID!, $expectedOn: LocalDate!, $note: String) {
    promiseStock(piece: $piece, expectedOn: $expectedOn, note: $note) {
      __typename
      ... on TimberPayload {
        entryId
      }
      ...Refused
    }
  }
`);

/** What to look for, to carry into the woods or the yard: longest first, with its outline and sweep. */
export function WantedList({ book, keeps, changed }: { book: Book; keeps: boolean; changed: () => void }) {
  const wanted = book.wood
    .filter((one) => one.standing === 'WANTING' || one.standing === 'NOT_LAID_UP')
    .sort((a, b) => (b.shape?.length ?? 0) - (a.shape?.length ?? 0));
  if (wanted.length === 0) return null;
  return (
    <Section
      title="Wanted"
      id="timber-wanted"
      aside={
        <button
          type="button"
          className="quiet"
          onClick={() => {
            window.print();
          }}
        >
          Print the list
        </button>
      }
    >
      <p>
        {count(wanted.length, 'piece has', 'pieces have')} no stock yet. Look for wood whose grain bends as
        the piece does.
      </p>
      {book.shapeIsMeasured ? null : (
        <p className="gap">Her shape is not measured yet, so the futtocks have no outlines.</p>
      )}
      <ul className="wanted">
        {wanted.map((wood) => (
          <li key={wood.piece}>
            <WantedPiece wood={wood} keeps={keeps} changed={changed} />
          </li>
        ))}
      </ul>
    </Section>
  );
}

function WantedPiece({ wood, keeps, changed }: { wood: Wood; keeps: boolean; changed: () => void }) {
  const { units } = useYard().me.organisation;
  const { shape } = wood;
  return (
    <article>
      <h3>
        {wood.use === 'FRAMES' ? (
          <a href={to('timber', wood.piece)}>{capital(wood.name)}</a>
        ) : (
          capital(wood.name)
        )}
      </h3>
      {shape ? (
        <>
          <Outline points={shape.points} name={wood.name} />
          <p>
            {sayFeet(shape.length, units)} long, {sayInches(shape.slabWidth, units)} wide as a straight slab,{' '}
            {sayInches(shape.thickness, units)} thick;{' '}
            {shape.sweep > 6
              ? `bends ${sayInches(shape.sweep, units)} off the straight, most at ${Math.round(shape.sweepAt * 100)} percent from the heel`
              : 'straight grain'}
            .
          </p>
          <p className="pencil">
            {Math.ceil(shape.boardFeet)} board feet; the slab weighs about {shape.pounds} pounds:{' '}
            {shape.liftingGear ? 'lifting gear, not people' : count(shape.carriers, 'carrier')}.
          </p>
        </>
      ) : null}
      {wood.why ? <p className="pencil">{capital(wood.why)}.</p> : null}
      {keeps ? <PromiseForm wood={wood} changed={changed} /> : null}
    </article>
  );
}

function Outline({ points, name }: { points: string; name: string }) {
  const box = boxOf(points);
  return (
    <svg
      className="wanted-outline"
      role="img"
      aria-label={`Outline of ${name}`}
      viewBox={`${box.left - 20} ${-box.high - 20} ${box.right - box.left + 40} ${box.high - box.low + 40}`}
    >
      <polygon className="laid" points={points} transform="scale(1 -1)" />
    </svg>
  );
}

const fields = { expectedOn: 'expectedOn' };

function PromiseForm({ wood, changed }: { wood: Wood; changed: () => void }) {
  const { run, busy } = useDeed(PromiseStockDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;
  const id = `promise-${wood.piece}`;

  async function submit(filled: Filled) {
    const answer = await run({
      piece: wood.piece,
      expectedOn: filled.text('expectedOn'),
      note: filled.textOrNull('note'),
    });
    setOutcome(answer);
    if (answer.kind === 'done') changed();
  }

  return (
    <details className="fold no-print">
      <summary>
        {wood.expectedOn ? `Expected on ${sayDay(wood.expectedOn)}` : 'Say when stock is expected'}
      </summary>
      <Form send={submit}>
        <Answer outcome={outcome} done="Entered; the plan follows." fields={{ expectedOn: id }} />
        <div className="row">
          <Field
            id={id}
            name="expectedOn"
            type="date"
            label="Expected on"
            defaultValue={wood.expectedOn ?? ''}
            wrong={controlFor(refusal?.field, fields) ? refusal?.message : null}
          />
          <Field id={`${id}-note`} name="note" label="Who promised it" />
        </div>
        <button type="submit" className="quiet" disabled={busy}>
          Enter the day
        </button>
      </Form>
    </details>
  );
}
