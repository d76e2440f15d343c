import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Choice, Field, Note, Tick } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { count, list, sayMinutes, sayWork } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';
import type { Book } from './timber.question.js';

const KeepTimberSourceDeed = graphql(`
  mutation KeepTimberSource($input: TimberSourceInput!) {
    keepTimberSource(input: $input) {
      __typename
      ... on TimberPayload {
        entryId
      }
      ...Refused
    }
  }
`);

const ThankTimberSourceDeed = graphql(`
  mutation ThankTimberSource($id: ID!) {
    thankTimberSource(id: $id) {
      __typename
      ... on TimberPayload {
        entryId
      }
      ...Refused
    }
  }
`);

const KeepSearchTripDeed = graphql(`
  mutation KeepSearchTrip($input: SearchTripInput!) {
    keepSearchTrip(input: $input) {
      __typename
      ... on TimberPayload {
        entryId
      }
      ...Refused
    }
  }
`);

const WhoWentQuestion = graphql(`
  query WhoWent {
    volunteers(first: 200) {
      edges {
        node {
          id
          name
        }
      }
    }
  }
`);

const ways = { BOUGHT: 'bought', GIFT: 'a gift', OWN_STOCK: 'had already' };

interface Part {
  book: Book;
  keeps: boolean;
  changed: () => void;
}

/** Who timber comes from, who is still to be thanked, and the trips to find more. */
export function Sources({ book, keeps, thanks, changed }: Part & { thanks: boolean }) {
  const { run, busy } = useDeed(ThankTimberSourceDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);

  async function thank(id: string) {
    const answer = await run({ id });
    setOutcome(answer);
    if (answer.kind === 'done') changed();
  }

  return (
    <>
      <Answer outcome={outcome} done="Entered: they were thanked." />
      <ul className="plain">
        {book.sources.map((source) => (
          <li key={source.id}>
            <b>{source.name}</b>, {ways[source.kind]}: {given(book, source.id)}.
            {source.note ? <span className="pencil"> {source.note}</span> : null}{' '}
            {source.thankedOn ? (
              <span className="pencil">
                Thanked on {sayDay(source.thankedOn)} by {source.thankedBy}.
              </span>
            ) : source.kind === 'GIFT' ? (
              <>
                <span className="gap">Not thanked yet.</span>{' '}
                {thanks ? (
                  <button
                    type="button"
                    className="quiet"
                    disabled={busy}
                    onClick={() => void thank(source.id)}
                  >
                    They were thanked
                  </button>
                ) : null}
              </>
            ) : null}
          </li>
        ))}
      </ul>
      {keeps ? <SourceForm changed={changed} /> : null}
      <h3>Trips to look for timber</h3>
      {book.trips.length ? (
        <ul className="plain">
          {book.trips.map((trip) => (
            <li key={trip.id}>
              {sayDay(trip.wentOn)}, {trip.whereTo}
              {trip.names.length ? `: ${list(trip.names)}` : ''}, {sayWork(trip.personMinutes)}.
              {trip.found ? <span className="pencil"> {trip.found}</span> : null}
            </li>
          ))}
        </ul>
      ) : (
        <p className="pencil">None in the book.</p>
      )}
      {keeps ? (
        <details className="fold">
          <summary>Enter a trip</summary>
          <TripForm changed={changed} />
        </details>
      ) : null}
    </>
  );
}

function given(book: Book, sourceId: string): string {
  const logs = book.logs.filter((log) => log.source?.id === sourceId).length;
  const flitches = book.flitches.filter((flitch) => flitch.source?.id === sourceId).length;
  const parts = [
    logs ? count(logs, 'log') : '',
    flitches ? count(flitches, 'flitch', 'flitches') : '',
  ].filter(Boolean);
  return parts.length ? list(parts) : 'nothing in the book yet';
}

function SourceForm({ changed }: { changed: () => void }) {
  const { run, busy } = useDeed(KeepTimberSourceDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);

  async function submit(filled: Filled) {
    const kind = filled.text('kind');
    const answer = await run({
      input: {
        name: filled.text('name'),
        kind: kind === 'GIFT' || kind === 'OWN_STOCK' ? kind : 'BOUGHT',
        note: filled.textOrNull('note'),
      },
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('The source is entered.');
    filled.form.reset();
    changed();
  }

  return (
    <details className="fold">
      <summary>Enter where timber comes from</summary>
      <Form send={submit}>
        <Answer outcome={outcome} done="The source is entered." fields={{ name: 'source-name' }} />
        <div className="row">
          <Field id="source-name" name="name" label="Who" />
          <Choice id="source-kind" name="kind" label="How it came">
            <option value="BOUGHT">bought</option>
            <option value="GIFT">a gift</option>
            <option value="OWN_STOCK">had already</option>
          </Choice>
        </div>
        <Note id="source-note" name="note" label="What to know about them" />
        <button type="submit" className="deed" disabled={busy}>
          Enter the source
        </button>
      </Form>
    </details>
  );
}

const tripFields = {
  wentOn: 'trip-on',
  whereTo: 'trip-where',
  minutes: 'trip-hours',
  volunteerIds: 'trip-who',
};

function TripForm({ changed }: { changed: () => void }) {
  const { today } = useYard();
  const [people, again] = useAsk(WhoWentQuestion, {});
  const { run, busy } = useDeed(KeepSearchTripDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);

  async function submit(filled: Filled) {
    const answer = await run({
      input: {
        wentOn: filled.text('wentOn'),
        whereTo: filled.text('whereTo'),
        minutes: Math.round(filled.number('hours') * 60),
        volunteerIds: filled.all('who'),
        found: filled.textOrNull('found'),
      },
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say(`The trip is entered, ${sayMinutes(Math.round(filled.number('hours') * 60))} each.`);
    filled.form.reset();
    changed();
  }

  return (
    <Form send={submit}>
      <Answer outcome={outcome} done="The trip is entered." fields={tripFields} />
      <div className="row">
        <Field id="trip-on" name="wentOn" type="date" label="On" defaultValue={today} />
        <Field id="trip-where" name="whereTo" label="Where to" />
        <Field id="trip-hours" name="hours" inputMode="decimal" label="Hours, each" defaultValue="4" />
      </div>
      <Note id="trip-found" name="found" label="What was found" />
      <fieldset id="trip-who" tabIndex={-1}>
        <legend>Who went</legend>
        <Asked answer={people} what="the crew" again={again}>
          {({ volunteers }) => (
            <div className="ticks">
              {volunteers.edges.map(({ node }) => (
                <Tick key={node.id} id={`trip-${node.id}`} name="who" value={node.id} label={node.name} />
              ))}
            </div>
          )}
        </Asked>
      </fieldset>
      <button type="submit" className="deed" disabled={busy}>
        Enter the trip
      </button>
    </Form>
  );
}
