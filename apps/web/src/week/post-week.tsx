import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { count } from '../words/amounts.js';
import type { WeekOfTurnouts } from './week.question.js';

const PostWeekDeed = graphql(`
  mutation PostWeek($weekOf: LocalDate!, $planId: ID!) {
    postWeek(weekOf: $weekOf, planId: $planId) {
      __typename
      ... on PostWeekPayload {
        turnouts {
          id
        }
        turnedAway
        waits
      }
      ...Refused
    }
  }
`);

/** Posting turns the week's proposal into places that people are told of and may take or leave. */
export function PostWeek({ week, posted }: { week: WeekOfTurnouts; posted: () => void }) {
  const { me } = useYard();
  const { run, busy } = useDeed(PostWeekDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const [turnedAway, setTurnedAway] = useState<string[]>([]);
  const [waits, setWaits] = useState<string[]>([]);
  const { planId, weekOf } = week;
  const mayPost = me.role === 'COORDINATOR' || me.role === 'DIRECTOR';

  async function post() {
    if (!planId) return;
    const answer = await run({ weekOf, planId });
    setOutcome(answer);
    setTurnedAway(answer.kind === 'done' ? answer.done.turnedAway : []);
    setWaits(answer.kind === 'done' ? answer.done.waits : []);
    if (answer.kind === 'done') say('The week is posted.');
    posted();
  }

  return (
    <div className="post-week">
      <Answer
        outcome={outcome}
        done="The week is posted. Everybody named below finds it under their places, and the open places are there to be taken."
      />
      {turnedAway.length ? (
        <div className="answer answer-no">
          <p className="answer-what">A gate kept these from their places, which stand open:</p>
          <ul>
            {turnedAway.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </div>
      ) : null}
      {waits.length ? (
        <div className="answer answer-no">
          <p className="answer-what">The hull must wait, so these were not posted:</p>
          <ul>
            {waits.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </div>
      ) : null}
      {week.posted ? (
        <p>{sayPosted(week)}</p>
      ) : mayPost && planId ? (
        <>
          <button type="button" className="deed" onClick={() => void post()} disabled={busy}>
            {busy ? 'Posting…' : 'Post this week'}
          </button>
          <p className="hint">
            Not posted yet. Posting gives each person below their place, and opens the gaps to whoever may
            take them.
          </p>
        </>
      ) : (
        <p className="hint">
          {planId ? 'The coordinator has not posted this week yet.' : 'There is no plan to post from yet.'}
        </p>
      )}
    </div>
  );
}

/** "Posted: 14 people come, 20 are asked and have not answered, 2 can’t come. 5 places are open." */
function sayPosted(week: WeekOfTurnouts): string {
  const places = week.turnouts.flatMap((each) => each.turnout.places);
  const many = (state: string) => places.filter((place) => place.hand && place.state === state).length;
  const open = places.filter((place) => !place.hand).length;
  return `Posted. ${count(many('TAKEN'), 'place')} with a yes, ${many('POSTED')} not answered yet, ${many('LEFT')} with a no; ${open} open.`;
}
