import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { sayDay } from '../words/dates.js';
import type { Turnout } from './week.question.js';

const SecondVersionQuestion = graphql(`
  query SecondVersion($turnoutId: ID!, $volunteerId: ID) {
    secondVersion(turnoutId: $turnoutId, volunteerId: $volunteerId) {
      without {
        volunteerId
        name
      }
      changes
      ring {
        why
        phone
        hand {
          volunteerId
          name
        }
      }
    }
  }
`);

const GoWithoutDeed = graphql(`
  mutation GoWithout($turnoutId: ID!, $volunteerId: ID!) {
    goWithout(turnoutId: $turnoutId, volunteerId: $volunteerId) {
      __typename
      ...Refused
    }
  }
`);

/** What a posted turnout looks like without somebody, whom to ring, and making it so by one press. */
export function SecondVersion({ turnout, changed }: { turnout: Turnout['turnout']; changed: () => void }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details
      className="fold"
      onToggle={(event) => {
        setOpen(event.currentTarget.open);
      }}
    >
      <summary>
        If somebody can’t come<span className="unseen">: {sayDay(turnout.on)}</span>
      </summary>
      {isOpen ? <Without turnout={turnout} changed={changed} /> : null}
    </details>
  );
}

function Without({ turnout, changed }: { turnout: Turnout['turnout']; changed: () => void }) {
  const [who, setWho] = useState<string | null>(null);
  const [answer, again] = useAsk(
    SecondVersionQuestion,
    { turnoutId: turnout.id, volunteerId: who },
    'roster',
  );
  const { run, busy } = useDeed(GoWithoutDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const say = useSay();
  const people = new Map(
    turnout.places.flatMap(({ hand, state }) =>
      hand && state !== 'LEFT' ? [[hand.volunteerId, hand.name] as const] : [],
    ),
  );
  const selectId = `${turnout.id}-without`;

  async function goWithout(volunteerId: string, name: string) {
    const done = await run({ turnoutId: turnout.id, volunteerId });
    setOutcome(done);
    if (done.kind === 'done') {
      say(`The turnout stands without ${name}.`);
      setWho(null);
    }
    changed();
  }

  return (
    <>
      <Answer
        outcome={outcome}
        done="Done. Those who step in are asked, and everybody else stays."
        fields={{}}
      />
      <p className="field">
        <label htmlFor={selectId}>Who</label>
        <select
          id={selectId}
          value={who ?? ''}
          onChange={(event) => {
            setWho(event.target.value || null);
          }}
        >
          <option value="">whoever would be missed most</option>
          {[...people].map(([id, name]) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </p>
      <Asked answer={answer} what="the second version" again={again}>
        {({ secondVersion }) =>
          secondVersion ? (
            <>
              <p>
                <strong>Without {secondVersion.without.name}</strong>
              </p>
              <ul>
                {secondVersion.changes.map((words) => (
                  <li key={words}>{words}</li>
                ))}
              </ul>
              {secondVersion.ring.length ? (
                <>
                  <p>
                    <strong>To ring</strong>
                  </p>
                  <ol>
                    {secondVersion.ring.map(({ hand, phone, why }) => (
                      <li key={hand.volunteerId}>
                        <a href={to('crew', hand.volunteerId)}>{hand.name}</a>
                        {phone ? (
                          <>
                            , <a href={`tel:${phone.replace(/[^+\d]/g, '')}`}>{phone}</a>
                          </>
                        ) : null}
                        . {why}
                      </li>
                    ))}
                  </ol>
                </>
              ) : (
                <p>Nobody else in the crew may do this work and is free then.</p>
              )}
              <button
                type="button"
                className="quiet"
                disabled={busy}
                onClick={() => void goWithout(secondVersion.without.volunteerId, secondVersion.without.name)}
              >
                {secondVersion.without.name} can’t come: change it so
              </button>
            </>
          ) : (
            <p>No work would be lost whoever stays away.</p>
          )
        }
      </Asked>
    </>
  );
}
