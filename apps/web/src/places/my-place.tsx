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
import { useTake } from './take.js';

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
  /** Called when an answer was refused, since the place may have changed. */
  changed: () => void;
}

/** A place that I am asked to fill or hold: say yes, or tap "I can't come" and leave it with a second tap. */
export function MyPlace({ place, notice, settle, changed }: MyPlaceProps) {
  const leaving = useDeed(LeavePlaceDeed);
  const taking = useTake();
  const [asking, setAsking] = useState(false);
  const [reason, setReason] = useState('');
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const asked = place.state === 'POSTED';
  const what = `${place.task.title} on ${sayDay(place.turnout.on)}`;

  function answered(answer: Outcome<unknown>, words: string) {
    if (answer.kind === 'done') {
      settle(words);
      return;
    }
    setOutcome(answer);
    changed();
  }

  async function take() {
    answered(
      await taking.run({ placeId: place.id }),
      `You are expected: ${what}, from ${place.turnout.startTime}.`,
    );
  }

  async function leave() {
    const answer = await leaving.run({ placeId: place.id, reason: reason.trim() || null });
    answered(answer, `You have left ${what}. Thank you for saying so: the place is open for someone else.`);
  }

  return (
    <article className="place" aria-labelledby={`${place.id}-what`}>
      <PlaceWords place={place} />
      {place.why ? <p className="hand-why">Why you: {place.why}</p> : null}
      <details className="fold" open={asked}>
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
            <button type="button" className="deed" onClick={leave} disabled={leaving.busy}>
              {leaving.busy ? 'Leaving…' : 'Leave this place'}
            </button>
            <button type="button" className="quiet" onClick={() => setAsking(false)}>
              Keep it
            </button>
          </div>
        </div>
      ) : (
        <div className="buttons">
          {asked ? (
            <button
              type="button"
              className="deed"
              onClick={take}
              disabled={taking.busy}
              aria-describedby={`${place.id}-what`}
            >
              {taking.busy ? 'Saying yes…' : 'Yes, I will be there'}
            </button>
          ) : null}
          <button
            type="button"
            className="quiet"
            onClick={() => setAsking(true)}
            aria-describedby={`${place.id}-what`}
          >
            I can’t come
          </button>
          {asked ? null : (
            <a href={to('tally', place.task.id)} aria-describedby={`${place.id}-what`}>
              Enter a tally
            </a>
          )}
        </div>
      )}
    </article>
  );
}
