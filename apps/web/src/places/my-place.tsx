import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { Answer } from '../parts/answer.js';
import { Cautions } from '../parts/cautions.js';
import { Field } from '../parts/field.js';
import { sayDay } from '../words/dates.js';
import { PlaceWords } from './place-words.js';
import type { Mine } from './places.js';

const LeavePlaceDeed = graphql(`
  mutation LeavePlace($placeId: ID!, $reason: String) {
    leavePlace(placeId: $placeId, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

interface MyPlaceProps {
  place: Mine;
  notice: string;
  settle: (words: string) => void;
}

/** A place I hold: first tap "I can't come", second tap leaves it. */
export function MyPlace({ place, notice, settle }: MyPlaceProps) {
  const { run, busy } = useDeed(LeavePlaceDeed);
  const [asking, setAsking] = useState(false);
  const [reason, setReason] = useState('');
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);

  async function leave() {
    const answer = await run({ placeId: place.id, reason: reason.trim() || null });
    if (answer.kind === 'done') {
      settle(
        `You have left ${place.task.title} on ${sayDay(place.turnout.on)}. Thank you for saying so: the place is open for someone else.`,
      );
    } else setOutcome(answer);
  }

  return (
    <article className="place" aria-labelledby={`${place.id}-what`}>
      <PlaceWords place={place} />
      {place.why ? <p className="hand-why">Why you: {place.why}</p> : null}
      <details className="fold">
        <summary>Cautions and who decides</summary>
        <Cautions cautions={place.task.cautions} notice={notice} level="h4" />
      </details>
      <Answer outcome={outcome} done="" />
      {asking ? (
        <div className="asking">
          <Field
            id={`${place.id}-reason`}
            label="Why (if you like to say)"
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
          <div className="buttons">
            <button type="button" className="deed" onClick={leave} disabled={busy}>
              {busy ? 'Leaving…' : 'Leave this place'}
            </button>
            <button type="button" className="quiet" onClick={() => setAsking(false)}>
              Keep it
            </button>
          </div>
        </div>
      ) : (
        <div className="buttons">
          <button
            type="button"
            className="quiet"
            onClick={() => setAsking(true)}
            aria-describedby={`${place.id}-what`}
          >
            I can’t come
          </button>
          <a href={to('tally', place.task.id)} aria-describedby={`${place.id}-what`}>
            Enter a tally
          </a>
        </div>
      )}
    </article>
  );
}
