import { graphql } from '../gql/gql.js';
import type { PlacedHandInput } from '../gql/graphql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { count } from '../words/amounts.js';
import type { WeekOfTurnouts } from './week.question.js';

const PostWeekDeed = graphql(`
  mutation PostWeek($weekOf: LocalDate!, $planId: ID!, $places: [PlacedHandInput!]) {
    postWeek(weekOf: $weekOf, planId: $planId, places: $places) {
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

/** What came of a posting. */
export interface PostingCame {
  outcome: Outcome<unknown> | null;
  turnedAway: string[];
  waits: string[];
}

export const notPosted: PostingCame = { outcome: null, turnedAway: [], waits: [] };

/** Posting turns the week's proposal into places that people are told of and may take or leave. */
export function PostWeek({
  week,
  posted,
  places = null,
  told,
  came,
  setCame,
}: {
  week: Pick<WeekOfTurnouts, 'weekOf' | 'planId' | 'posted'>;
  /** How a posted week stands, in words. */
  told?: string;
  /** What came of the last posting, kept by the page: the week is shown another way after it. */
  came: PostingCame;
  setCame: (came: PostingCame) => void;
  posted: () => void;
  /** Who is on which place, where somebody has put the week together; the proposal where not. */
  places?: PlacedHandInput[] | null;
}) {
  const { me } = useYard();
  const { run, busy } = useDeed(PostWeekDeed);
  const say = useSay();
  const { outcome, turnedAway, waits } = came;
  const { planId, weekOf } = week;
  const mayPost = me.role === 'COORDINATOR' || me.role === 'DIRECTOR';

  async function post() {
    if (!planId) return;
    const answer = await run({ weekOf, planId, places });
    const done = answer.kind === 'done' ? answer.done : { turnedAway: [], waits: [] };
    setCame({ outcome: answer, turnedAway: done.turnedAway, waits: done.waits });
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
      {week.posted && !places ? (
        <p>{told}</p>
      ) : mayPost && planId ? (
        <>
          <button type="button" className="deed" onClick={() => void post()} disabled={busy}>
            {busy ? 'Posting…' : week.posted ? 'Post again' : 'Post this week'}
          </button>
          <p className="hint">
            {week.posted
              ? 'Who has said yes stays. Whoever loses a place or gets another is told, swing hands too.'
              : 'Not posted yet. Posting tells each person below of their place, asks the swing hands to stand by, and opens the gaps to whoever may take them.'}
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
export function sayPosted(week: WeekOfTurnouts): string {
  const places = week.turnouts.flatMap((each) => each.turnout.places);
  const many = (state: string) => places.filter((place) => place.hand && place.state === state).length;
  const open = places.filter((place) => !place.hand).length;
  return `Posted. ${count(many('TAKEN'), 'place')} with a yes, ${many('POSTED')} not answered yet, ${many('LEFT')} with a no; ${open} open.`;
}
