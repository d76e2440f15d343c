import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Section } from '../parts/page.js';
import { capital, count } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';
import { FlitchDrawing } from './flitch-drawing.js';
import type { Book, LayUp } from './timber.question.js';

const AskForLayUpDeed = graphql(`
  mutation AskForLayUp {
    askForLayUp {
      __typename
      ... on TimberPayload {
        entryId
      }
      ...Refused
    }
  }
`);

const KeepLayUpDeed = graphql(`
  mutation KeepLayUp($id: ID!) {
    keepLayUp(id: $id) {
      __typename
      ... on TimberPayload {
        entryId
      }
      ...Refused
    }
  }
`);

/** Which piece is sawn from which flitch: the proposal to look at, and the lay-up that holds. */
export function LayUpPart({ book, decides, changed }: { book: Book; decides: boolean; changed: () => void }) {
  const asks = useDeed(AskForLayUpDeed);
  const keeps = useDeed(KeepLayUpDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const { proposed, kept, isLayingUp, layUpFailure } = book;

  async function ask() {
    const answer = await asks.run({});
    setOutcome(answer.kind === 'done' ? null : answer);
    if (answer.kind === 'done') changed();
  }

  async function keep(id: string) {
    const answer = await keeps.run({ id });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('The lay-up is kept.');
    changed();
  }

  return (
    <Section title="Lay-up" id="timber-lay-up">
      <Answer outcome={outcome} done="Kept. Work waits for the wood that it names." />
      <p>
        A place on the stock for every pattern: inside the sapwood, clear of defects, its grain along the
        piece.
        {decides ? ' It is a proposal: chalk it out on the floor before you saw.' : ''}
      </p>
      {decides ? (
        <button type="button" className="deed" disabled={asks.busy || isLayingUp} onClick={() => void ask()}>
          {isLayingUp ? 'Seeking places…' : 'Seek places on the stock'}
        </button>
      ) : null}
      {layUpFailure ? (
        <p className="gap" role="status">
          No places were found when they were last sought: {layUpFailure}
        </p>
      ) : null}
      {proposed ? (
        <div className="proposal">
          <h3>Proposed on {sayDay(proposed.madeOn)}</h3>
          <Laid book={book} layUp={proposed} />
          {decides ? (
            <button
              type="button"
              className="deed"
              disabled={keeps.busy}
              onClick={() => {
                void keep(proposed.id);
              }}
            >
              Keep this lay-up
            </button>
          ) : null}
        </div>
      ) : null}
      {kept ? (
        <>
          <h3>
            Kept by {kept.keptBy}, made on {sayDay(kept.madeOn)}
          </h3>
          <Laid book={book} layUp={kept} />
        </>
      ) : null}
    </Section>
  );
}

function Laid({ book, layUp }: { book: Book; layUp: LayUp }) {
  const used = book.flitches.filter((flitch) => layUp.placed.some((one) => one.flitchId === flitch.id));
  return (
    <>
      <p>
        {count(layUp.placed.length, 'piece')} on {count(used.length, 'flitch', 'flitches')}
        {layUp.yieldShare
          ? `; ${Math.round(layUp.yieldShare * 100)} percent of that stock becomes pieces`
          : ''}
        .
      </p>
      <ul className="laid-flitches">
        {used.map((flitch) => {
          const placed = layUp.placed.filter((one) => one.flitchId === flitch.id);
          return (
            <li key={flitch.id}>
              <h4>{flitch.mark}</h4>
              <FlitchDrawing flitch={flitch} placed={placed} />
              <ol>
                {placed.map((one) => (
                  <li key={one.piece}>
                    {capital(one.name)}
                    <span className="pencil">
                      {one.turnedOver ? ', face down' : ''}, grain runs out 1 in{' '}
                      {one.grainRunOut > 0.005 ? Math.floor(1 / one.grainRunOut) : 'many'}
                    </span>
                  </li>
                ))}
              </ol>
            </li>
          );
        })}
      </ul>
      {layUp.wanting.length ? (
        <>
          <p className="gap">Without a place:</p>
          <ul className="plain">
            {layUp.wanting.map((words) => (
              <li key={words}>{capital(words)}.</li>
            ))}
          </ul>
        </>
      ) : null}
    </>
  );
}
