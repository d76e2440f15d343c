import { useEffect, useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { WhatIfsQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { sayDay } from '../words/dates.js';
import './outlook.css';
import { Try } from './what-if-form.js';

const WhatIfsQuestion = graphql(`
  query WhatIfs {
    whatIfs {
      id
      name
      askedBy
      isWaiting
      message
      changes
      isOfPlan
      canBeEntered
      byHand
      applied {
        by
        changes {
          words
          isDone
          instead
        }
      }
      sentence
      now {
        ...Look
      }
      then {
        ...Look
      }
    }
    skills {
      id
      name
    }
    tools {
      id
      name
    }
    volunteers(first: 200) {
      nodes {
        id
        name
      }
    }
  }
  fragment Look on LookModel {
    readyOn
    evenOn
    likelyOn
    oddsWords
  }
`);

const ReckonWhatIfDeed = graphql(`
  mutation ReckonWhatIf($id: ID!) {
    reckonWhatIf(id: $id) {
      __typename
      ... on WhatIfPayload {
        whatIf {
          id
        }
      }
      ...Refused
    }
  }
`);

const ApplyWhatIfDeed = graphql(`
  mutation ApplyWhatIf($id: ID!) {
    applyWhatIf(id: $id) {
      __typename
      ... on WhatIfPayload {
        whatIf {
          id
        }
      }
      ...Refused
    }
  }
`);

const ForgetWhatIfDeed = graphql(`
  mutation ForgetWhatIf($id: ID!) {
    forgetWhatIf(id: $id) {
      __typename
      ... on ForgetWhatIfPayload {
        id
      }
      ...Refused
    }
  }
`);

type Answered = WhatIfsQuery;
type Kept = Answered['whatIfs'][number];

/** How often an answer that is still being reckoned is asked for. */
const everyMillis = 2_000;

/** Try a change: both outlooks side by side. The plan in force goes on as it is. */
export function WhatIfPage() {
  const [answer, again] = useAsk(WhatIfsQuestion, {}, 'plan');
  const waits = answer.data?.whatIfs.some(({ isWaiting }) => isWaiting) ?? false;
  useEffect(() => {
    if (!waits) return undefined;
    const timer = setInterval(again, everyMillis);
    return () => {
      clearInterval(timer);
    };
  }, [waits, again]);
  return (
    <Page
      title="What if"
      lead={<p>Try a change on a copy. The plan that the yard goes by stays as it is.</p>}
    >
      <Asked answer={answer} what="what was thought of" again={again}>
        {(data) => (
          <>
            <Section title="Try a change" id="try">
              <Try data={data} asked={again} />
            </Section>
            <Section title="What was tried" id="tried">
              {data.whatIfs.length ? (
                data.whatIfs.map((one) => <Tried key={one.id} one={one} gone={again} />)
              ) : (
                <Nothing>
                  <p>Nothing yet.</p>
                </Nothing>
              )}
            </Section>
          </>
        )}
      </Asked>
    </Page>
  );
}

function Tried({ one, gone }: { one: Kept; gone: () => void }) {
  const forget = useDeed(ForgetWhatIfDeed);
  const reckon = useDeed(ReckonWhatIfDeed);
  const apply = useDeed(ApplyWhatIfDeed);
  const busy = forget.busy || reckon.busy || apply.busy;
  const [isSure, setSure] = useState(false);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const does = (deed: Promise<Outcome<unknown>>) => {
    void deed.then((came) => {
      setOutcome(came);
      setSure(false);
      gone();
    });
  };
  const isKnown = one.now !== null && one.then !== null && !one.applied;
  return (
    <article aria-labelledby={one.id}>
      <h3 id={one.id}>{one.name}</h3>
      <ul>
        {one.changes.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      {outcome && outcome.kind !== 'done' ? <Answer outcome={outcome} done="" /> : null}
      {one.isWaiting ? <p role="status">Being reckoned…</p> : null}
      {one.message ? <p className="gap">{one.message}</p> : null}
      {one.sentence ? <p>{one.sentence}</p> : null}
      {one.now && one.then ? <SideBySide called={one.name} now={one.now} then={one.then} /> : null}
      {one.applied ? <Applied applied={one.applied} /> : null}
      {isKnown && !one.canBeEntered ? (
        <p>Nothing of this can be entered here: it is for people to do. {one.byHand.join(' ')}</p>
      ) : null}
      {isKnown && one.canBeEntered && !one.isOfPlan ? (
        <p>The plan has moved on since: reckon it again before it is applied.</p>
      ) : null}
      {isSure ? (
        <p>
          Whatever can be entered is entered at once, and a new plan is made.{' '}
          <button
            type="button"
            className="deed"
            disabled={busy}
            onClick={() => {
              does(apply.run({ id: one.id }));
            }}
          >
            Apply it now
          </button>{' '}
          <button
            type="button"
            className="quiet"
            onClick={() => {
              setSure(false);
            }}
          >
            Not yet
          </button>
        </p>
      ) : null}
      <p>
        <span className="pencil">Asked by {one.askedBy}. </span>
        {isKnown && one.canBeEntered && one.isOfPlan && !isSure ? (
          <button
            type="button"
            className="quiet"
            aria-label={`Apply: ${one.name}`}
            disabled={busy}
            onClick={() => {
              setSure(true);
            }}
          >
            Apply
          </button>
        ) : null}{' '}
        {!one.isWaiting && !one.applied && !one.isOfPlan ? (
          <button
            type="button"
            className="quiet"
            aria-label={`Reckon again: ${one.name}`}
            disabled={busy}
            onClick={() => {
              does(reckon.run({ id: one.id }));
            }}
          >
            Reckon it again
          </button>
        ) : null}{' '}
        <button
          type="button"
          className="quiet"
          aria-label={`Throw away: ${one.name}`}
          disabled={busy}
          onClick={() => {
            does(forget.run({ id: one.id }));
          }}
        >
          Throw it away
        </button>
      </p>
    </article>
  );
}

/** What became of each change, and what is still for people to do. */
function Applied({ applied }: { applied: NonNullable<Kept['applied']> }) {
  return (
    <>
      <p>
        <strong>Applied by {applied.by}.</strong>
      </p>
      <ul className="applied">
        {applied.changes.map(({ words, isDone, instead }) => (
          <li key={words}>
            <strong>{isDone ? 'Entered' : 'Not entered'}:</strong> {words}.{' '}
            {instead ? <span>{instead}</span> : null}
          </li>
        ))}
      </ul>
    </>
  );
}

interface SideBySideProps {
  called: string;
  now: NonNullable<Kept['now']>;
  then: NonNullable<Kept['then']>;
}

function SideBySide({ called, now, then }: SideBySideProps) {
  const day = (on: string | null | undefined) => (on ? sayDay(on) : 'no day that is known');
  return (
    <div className="wide" role="region" aria-label={`Side by side: ${called}`} tabIndex={0}>
      <table className="looks">
        <thead>
          <tr>
            <td />
            <th scope="col">As it is</th>
            <th scope="col">As it would be</th>
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">Odds of the gate</th>
            <td>{now.oddsWords}</td>
            <td>{then.oddsWords}</td>
          </tr>
          <tr>
            <th scope="row">Ready if everyone comes</th>
            <td>{day(now.readyOn)}</td>
            <td>{day(then.readyOn)}</td>
          </tr>
          <tr>
            <th scope="row">As likely as not by</th>
            <td>{day(now.evenOn)}</td>
            <td>{day(then.evenOn)}</td>
          </tr>
          <tr>
            <th scope="row">8 in 10 by</th>
            <td>{day(now.likelyOn)}</td>
            <td>{day(then.likelyOn)}</td>
          </tr>
        </tbody>
      </table>
    </div>
  );
}
