import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { Answer } from '../parts/answer.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page } from '../parts/page.js';
import './outlook.css';

const TroublesQuestion = graphql(`
  query DemoTroubles {
    demoTroubles {
      key
      title
      story
      wasPlayed
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

/** What may go wrong at the demo yard, to be played one after the other. */
export function TroublesPage() {
  const [answer, again] = useAsk(TroublesQuestion, {});
  const { run, busy } = useDeed(PlayTroubleDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  async function play(key: string) {
    const played = await run({ key });
    setOutcome(played);
    again();
  }
  return (
    <Page
      title="Troubles"
      lead={
        <p>
          Play one, and see what the <a href={to('outlook')}>outlook</a> says of it. Each is entered as the
          crew would enter it, and stays entered.
        </p>
      }
    >
      <Answer
        outcome={outcome}
        done="It has happened. The plan and its odds are reckoned again; look at the outlook."
      />
      <Asked answer={answer} what="troubles" again={again}>
        {({ demoTroubles }) =>
          demoTroubles.length ? (
            <ul className="troubles">
              {demoTroubles.map(({ key, title, story, wasPlayed }) => (
                <li key={key}>
                  <strong>{title}</strong>
                  <p>
                    {story}
                    {wasPlayed ? ' It was played already.' : ''}
                  </p>
                  <button
                    type="button"
                    className="quiet"
                    disabled={busy}
                    aria-label={`Let it happen: ${title}`}
                    onClick={() => void play(key)}
                  >
                    Let it happen
                  </button>
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
