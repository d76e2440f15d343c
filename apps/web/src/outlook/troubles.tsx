import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { Answer } from '../parts/answer.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page } from '../parts/page.js';
import { sayDay } from '../words/dates.js';
import './outlook.css';

const TroublesQuestion = graphql(`
  query DemoTroubles {
    demoTroubles {
      key
      title
      story
      wasPlayed
      told
      waitsUntil
    }
  }
`);

const PlayTroubleDeed = graphql(`
  mutation PlayTrouble($key: ID!) {
    playTrouble(key: $key) {
      __typename
      ... on PlayTroublePayload {
        key
      }
      ...Refused
    }
  }
`);

const PlayDemoOnDeed = graphql(`
  mutation PlayDemoOn($key: ID!) {
    playDemoOn(key: $key) {
      __typename
      ... on PlayDemoOnPayload {
        organisation {
          id
        }
      }
      ...Refused
    }
  }
`);

/** What may go wrong at the demo yard, to be played one after the other. */
export function TroublesPage() {
  const [answer, again] = useAsk(TroublesQuestion, {});
  const trouble = useDeed(PlayTroubleDeed);
  const days = useDeed(PlayDemoOnDeed);
  const busy = trouble.busy || days.busy;
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const [done, setDone] = useState('');
  async function play(key: string) {
    const played = await trouble.run({ key });
    setDone('It has happened. The plan and its odds are reckoned again; look at the outlook.');
    setOutcome(played);
    again();
  }
  async function letDaysGoBy(key: string, day: string) {
    const gone = await days.run({ key });
    setDone(`It is the morning of ${sayDay(day)}, and all has gone as planned until then.`);
    setOutcome(gone);
    again();
  }
  return (
    <Page
      title="Troubles"
      lead={
        <p>
          Play one, and see what the <a href={to('outlook')}>outlook</a> says of it. Each is entered once, as
          the crew would enter it, and stays entered.
        </p>
      }
    >
      <Answer outcome={outcome} done={done} />
      <Asked answer={answer} what="troubles" again={again}>
        {({ demoTroubles }) =>
          demoTroubles.length ? (
            <ul className="troubles">
              {demoTroubles.map(({ key, title, story, wasPlayed, told, waitsUntil }) => (
                <li key={key}>
                  <strong>{title}</strong>
                  <p>
                    {story}
                    {wasPlayed ? ' It was played already; set the demo yard up afresh to play it again.' : ''}
                  </p>
                  {told.length ? (
                    <ul className="plain-list" aria-label="What the yard answered">
                      {told.map((one) => (
                        <li key={one}>{one}</li>
                      ))}
                    </ul>
                  ) : null}
                  {waitsUntil && !wasPlayed ? (
                    <p>
                      <span className="pencil">It waits for {sayDay(waitsUntil)}, by the plan. </span>
                      <button
                        type="button"
                        className="quiet"
                        disabled={busy}
                        aria-label={`Let the days go by until then, ${sayDay(waitsUntil)}`}
                        onClick={() => void letDaysGoBy(key, waitsUntil)}
                      >
                        Let the days go by until then
                      </button>
                    </p>
                  ) : null}
                  {wasPlayed ? null : (
                    <button
                      type="button"
                      className="quiet"
                      disabled={busy || waitsUntil !== null}
                      aria-label={`Let it happen: ${title}`}
                      onClick={() => void play(key)}
                    >
                      Let it happen
                    </button>
                  )}
                </li>
              ))}
            </ul>
          ) : (
            <Nothing>
              <p>Only the demo yard has troubles to play.</p>
            </Nothing>
          )
        }
      </Asked>
    </Page>
  );
}
