import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { Cautions } from '../parts/cautions.js';
import { Field } from '../parts/field.js';
import { useQuestionFocus } from '../parts/focus.js';
import { sayDay } from '../words/dates.js';
import { PlaceWords } from './place-words.js';
import type { Mine } from './places.question.js';
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
  settle: (outcome: Outcome<unknown>, words: string) => void;
}

/** A place that I am asked to fill or hold: say yes, or tap "I can't come" and leave it with a second tap. */
export function MyPlace({ place, notice, settle }: MyPlaceProps) {
  const leaving = useDeed(LeavePlaceDeed);
  const taking = useTake();
  const [asking, setAsking] = useState(false);
  const { opener, answer: no } = useQuestionFocus(asking);
  const [reason, setReason] = useState('');
  const asked = place.state === 'POSTED';
  const what = `${place.task.title} on ${sayDay(place.turnout.on)}`;

  async function take() {
    const answer = await taking.run({ placeId: place.id });
    settle(answer, `You are expected: ${what}, from ${place.turnout.startTime}.`);
  }

  async function leave() {
    const answer = await leaving.run({ placeId: place.id, reason: reason.trim() || null });
    settle(answer, `You have left ${what}. Thank you for saying so: the place is open for someone else.`);
  }

  return (
    <article className="place" aria-labelledby={`${place.id}-what`}>
      <PlaceWords place={place} />
      <details className="fold" open={asked}>
        <summary>Cautions and who decides</summary>
        <Cautions cautions={place.task.cautionLines} notice={notice} level="h4" />
      </details>
      {asking ? (
        <div className="asking">
          <Field
            id={`${place.id}-reason`}
            label="Why (if you like to say)"
            value={reason}
            onChange={(event) => {
              setReason(event.target.value);
            }}
          />
          <div className="buttons">
            <button
              type="button"
              ref={no}
              className="deed"
              onClick={() => void leave()}
              disabled={leaving.busy}
            >
              {leaving.busy ? 'Leaving…' : 'Leave this place'}
            </button>
            <button
              type="button"
              className="quiet"
              onClick={() => {
                setAsking(false);
              }}
            >
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
              onClick={() => void take()}
              disabled={taking.busy}
              aria-describedby={`${place.id}-what`}
            >
              {taking.busy ? 'Saying yes…' : 'Yes, I will be there'}
            </button>
          ) : null}
          <button
            type="button"
            ref={opener}
            className="quiet"
            onClick={() => {
              setAsking(true);
            }}
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
