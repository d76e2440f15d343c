import { useState } from 'react';
import { useSay } from '../live/announcer.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { TurnoutLead } from '../parts/turnout-lead.js';
import { dayOf, sayDay, timeOf } from '../words/dates.js';
import { AskStops } from './ask-stops.js';
import { type Overridden, StopsOfTurnoutQuestion, WithdrawStopOverrideDeed } from './stops.question.js';

/** What stops people at one turnout, and what a named authority has set aside there. */
export function StopsPage({ turnoutId }: { turnoutId: string }) {
  const [answer, again] = useAsk(StopsOfTurnoutQuestion, { id: turnoutId }, 'either');
  const node = answer.data?.node;
  const turnout = node?.__typename === 'Turnout' ? node : null;
  return (
    <Page title="Stops set aside" lead={<TurnoutLead turnout={turnout} />}>
      <p>
        A stop is set aside by a named person who has the authority, with a reason, for one person on one
        piece of work at this turnout. Nobody sets aside the rules on fire watch, permits, staging, lifting
        gear or an adult beside the young; ages only the director.
      </p>
      <Asked answer={answer} what="the stops" again={again}>
        {({ stopOverrides, volunteers, safetyNotice }) =>
          turnout ? (
            <>
              <Section title="On the record" id="set-aside">
                {stopOverrides.length ? (
                  <ul className="plain">
                    {stopOverrides.map((override) => (
                      <li key={override.id}>
                        <OnRecord override={override} changed={again} />
                      </li>
                    ))}
                  </ul>
                ) : (
                  <p>Nothing is set aside at this turnout.</p>
                )}
              </Section>
              <AskStops
                turnout={turnout}
                people={volunteers.edges.map(({ node: hand }) => hand)}
                changed={again}
              />
              <p className="notice">{safetyNotice}</p>
            </>
          ) : (
            <Nothing>
              <p>There is no such turnout.</p>
            </Nothing>
          )
        }
      </Asked>
      <p>
        <a href={to('week', turnout?.on ?? '')}>The week</a>
        {' · '}
        <a href={to('call', turnoutId)}>Call the turnout</a>
      </p>
    </Page>
  );
}

function OnRecord({ override, changed }: { override: Overridden; changed: () => void }) {
  const { timeZone } = useYard();
  const { run, busy } = useDeed(WithdrawStopOverrideDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const { hand, task, stopped, reason, grantedBy, grantedAt, withdrawnAt, withdrawnBy } = override;
  const when = (at: string) => `${sayDay(dayOf(at, timeZone))} at ${timeOf(at, timeZone)}`;
  async function withdraw() {
    const answer = await run({ id: override.id });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('It is withdrawn: the rule stops them again.');
    changed();
  }
  return (
    <>
      <p>
        <strong>
          {hand.name} on {task.title}.
        </strong>{' '}
        {stopped}
      </p>
      <p>
        Set aside by <strong>{grantedBy}</strong>, {when(grantedAt)}. {reason}
      </p>
      <Answer outcome={outcome} done="It is withdrawn." />
      {withdrawnAt ? (
        <p className="pencil">
          Withdrawn by {withdrawnBy}, {when(withdrawnAt)}.
        </p>
      ) : (
        <button
          type="button"
          className="quiet"
          disabled={busy}
          aria-label={`Withdraw it: ${hand.name} on ${task.title}`}
          onClick={() => void withdraw()}
        >
          Withdraw it
        </button>
      )}
    </>
  );
}
