import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { type KeptOutcome, useIsWaiting, useKeptDeed } from '../live/kept-deeds.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Cautions } from '../parts/cautions.js';
import { Field } from '../parts/field.js';
import { useQuestionFocus } from '../parts/focus.js';
import { sayDay } from '../words/dates.js';
import { PlaceWords } from './place-words.js';
import type { Mine } from './places.question.js';
import { useTake } from './take.js';

const LeavePlaceDeed = graphql(`
  mutation LeavePlace($placeId: ID!, $reason: String, $key: ID) {
    leavePlace(placeId: $placeId, reason: $reason, key: $key) {
      __typename
      ...Refused
    }
  }
`);

interface MyPlaceProps {
  place: Mine;
  lateHours: number;
  notice: string;
  settle: (outcome: KeptOutcome<unknown>, words: string) => void;
}

/** A place that I am asked to fill or hold: say yes, or tap "I can't come" and leave it with a second tap. */
export function MyPlace({ place, lateHours, notice, settle }: MyPlaceProps) {
  const leaving = useKeptDeed(LeavePlaceDeed);
  const taking = useTake();
  const [asking, setAsking] = useState(false);
  const { opener, answer: no } = useQuestionFocus(asking);
  const [reason, setReason] = useState('');
  const isWaiting = useIsWaiting('placeId', place.id);
  const { me } = useYard();
  const hoursLeft = (Date.parse(place.startsAt) - Date.parse(me.organisation.yardNow)) / 3_600_000;
  const isLate = hoursLeft < lateHours && place.state === 'TAKEN';
  const asked = place.state === 'POSTED';
  const what = `${place.task.title} on ${sayDay(place.turnout.on)}`;

  async function take() {
    const done = `You are expected: ${what}, from ${place.turnout.startTime}.`;
    settle(await taking.run({ placeId: place.id }, { what: `Say yes to ${what}`, done }), done);
  }

  async function leave() {
    const done = `You have left ${what}. Thank you for saying so: the place is open for someone else.`;
    const asked = { placeId: place.id, reason: reason.trim() || null };
    settle(await leaving.run(asked, { what: `Leave ${what}`, done }), done);
  }

  return (
    <article className="place" aria-labelledby={`${place.id}-what`}>
      <PlaceWords place={place} />
      {place.setAside.map((words) => (
        <p key={words} className="gap">
          {words}
        </p>
      ))}
      <details className="fold" open={asked}>
        <summary>Cautions and who decides</summary>
        <Cautions cautions={place.task.cautionLines} notice={notice} level="h4" />
      </details>
      {place.task.hazards.some(({ code }) => code === 'HOT_WORK') ? (
        <p>
          <a href={to('watch', place.turnout.id)}>The fire watch: who, the last spark, the later look</a>
        </p>
      ) : null}
      {place.turnout.kind === 'WATCH' ? (
        <p>
          <a href={to('pumps', place.turnout.id)}>The pump log: each round, and how the water goes</a>
        </p>
      ) : null}
      {isWaiting ? (
        <p className="pencil">What you pressed waits for the line.</p>
      ) : asking ? (
        <div className="asking">
          {isLate ? (
            <p>
              It is soon, so somebody is asked at once to step in, and the coordinator sees the gap. Better
              late than not at all: thank you for saying so.
            </p>
          ) : null}
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
