import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useReckoning } from '../live/news.js';
import { Answer } from '../parts/answer.js';

const AskForPlanDeed = graphql(`
  mutation AskForPlan {
    askForPlan {
      __typename
      ... on AskForPlanPayload {
        computing {
          id
          state
        }
      }
      ...Refused
    }
  }
`);

/** Asks for a new plan; how far it is shows at the head of the page. */
export function ReckonAgain() {
  const { run } = useDeed(AskForPlanDeed);
  const say = useSay();
  const reckoning = useReckoning();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const underWay = reckoning?.state === 'WAITING' || reckoning?.state === 'RUNNING';
  async function askForPlan() {
    if (underWay) return;
    setOutcome(null);
    const answer = await run({});
    if (answer.kind === 'done') say('Reckoning the plan again.');
    else setOutcome(answer);
  }
  return (
    <div className="reckon-again">
      <button type="button" className="deed" onClick={() => void askForPlan()} aria-disabled={underWay}>
        {underWay ? 'Reckoning…' : 'Reckon again'}
      </button>
      <Answer outcome={outcome} done="" />
    </div>
  );
}
