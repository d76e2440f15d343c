import { graphql } from '../gql/gql.js';
import { type KeptOutcome, useIsWaiting, useKeptDeed } from '../live/kept-deeds.js';
import { useYard } from '../live/yard.js';
import { Cautions } from '../parts/cautions.js';
import { Section } from '../parts/page.js';
import { sayDay, sayDistance } from '../words/dates.js';
import type { Open, Swing } from './places.question.js';
import { useTake } from './take.js';

const LeaveSwingDeed = graphql(`
  mutation LeaveSwing($swingHandId: ID!, $key: ID) {
    leaveSwing(swingHandId: $swingHandId, key: $key) {
      __typename
      ...Refused
    }
  }
`);

type Settle = (outcome: KeptOutcome<unknown>, words: string) => void;

interface MySwingsProps {
  swings: Swing[];
  /** Places that somebody left and that are mine to take first. */
  freed: Open[];
  notice: string;
  settle: Settle;
}

/** Where I stand by: what has come free there for me, and no in one tap. */
export function MySwings({ swings, freed, notice, settle }: MySwingsProps) {
  if (!swings.length) return null;
  return (
    <Section title="Where I stand by" id="swing">
      <p>You go where somebody is missing, and you are asked first when a place comes free.</p>
      <ol className="places">
        {swings.map((swing) => (
          <li key={swing.id}>
            <MySwing
              swing={swing}
              freed={freed.filter(({ place }) => place.turnout.id === swing.turnout.id)}
              notice={notice}
              settle={settle}
            />
          </li>
        ))}
      </ol>
    </Section>
  );
}

function MySwing({
  swing,
  freed,
  notice,
  settle,
}: {
  swing: Swing;
  freed: Open[];
  notice: string;
  settle: Settle;
}) {
  const { today } = useYard();
  const leaving = useKeptDeed(LeaveSwingDeed);
  const taking = useTake();
  const isWaiting = useIsWaiting('swingHandId', swing.id);
  const { turnout } = swing;
  const day = sayDay(turnout.on);

  async function leave() {
    const done = `You don’t stand by on ${day} any more. Thank you for saying so.`;
    settle(
      await leaving.run({ swingHandId: swing.id }, { what: `Say no to standing by on ${day}`, done }),
      done,
    );
  }

  async function take({ place }: Open) {
    const done = `The place is yours: ${place.task.title} on ${day}.`;
    settle(
      await taking.run({ placeId: place.id }, { what: `Take ${place.task.title} on ${day}`, done }),
      done,
    );
  }

  return (
    <article className="place" aria-labelledby={`${swing.id}-when`}>
      <p className="place-when">
        <strong id={`${swing.id}-when`}>{day}</strong>{' '}
        <span className="pencil">
          {turnout.startTime} to {turnout.endTime}, {sayDistance(turnout.on, today)}
        </span>
      </p>
      {turnout.note ? <p>{turnout.note}</p> : null}
      {freed.map((open) => (
        <div key={open.place.id} className="asking">
          <p id={`${open.place.id}-free`}>
            <strong>Somebody can’t come: {open.place.task.title}</strong>{' '}
            <span className="place-on-hull">{open.place.task.position}</span>
          </p>
          <Cautions cautions={open.cautions} notice={notice} level="h4" />
          <div className="buttons">
            <button
              type="button"
              className="deed"
              disabled={taking.busy}
              onClick={() => void take(open)}
              aria-describedby={`${open.place.id}-free`}
            >
              {taking.busy ? 'Taking it…' : 'I take this place'}
            </button>
          </div>
        </div>
      ))}
      {isWaiting ? (
        <p className="pencil">What you pressed waits for the line.</p>
      ) : (
        <div className="buttons">
          <button
            type="button"
            className="quiet"
            disabled={leaving.busy}
            onClick={() => void leave()}
            aria-describedby={`${swing.id}-when`}
          >
            {leaving.busy ? 'Saying so…' : 'I can’t stand by'}
          </button>
        </div>
      )}
    </article>
  );
}
