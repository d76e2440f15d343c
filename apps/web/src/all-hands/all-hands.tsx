import { Fragment, useState } from 'react';
import { useAsk } from '../live/ask.js';
import { useDeed } from '../live/deed.js';
import { to } from '../live/route.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page } from '../parts/page.js';
import { type Came, PostingCame, proposalKey, Roster } from '../watches/roster.js';
import { CallOff } from '../week/call-off.js';
import { count } from '../words/amounts.js';
import { AllHandsQuestion, PostAllHandsDeed } from './all-hands.question.js';
import { ChangeRoles } from './change-roles.js';
import { LayOn } from './lay-on.js';
import '../week/week.css';

/** Days that take all hands: laid on with their roles, rostered, posted, called off. */
export function AllHands() {
  const { run } = useDeed(PostAllHandsDeed);
  // What came of a posting stays while the form starts anew.
  const [came, setCame] = useState<Came>({ outcome: null, turnedAway: [] });
  const [answer, again] = useAsk(AllHandsQuestion, {}, 'roster');
  return (
    <Page
      title="All-hands days"
      lead={
        <p>
          A launch, a lift, a steamed plank: everybody at the same minute, each with one thing to do. Whoever
          is in charge of the lift or the box decides on the day whether it goes ahead.
        </p>
      }
    >
      <p>
        <a href={to('week')}>Back to the week</a>
      </p>
      <LayOn changed={again} />
      <Asked answer={answer} what="the all-hands days" again={again}>
        {({ allHandsProposal: days, safetyNotice }) =>
          days.length ? (
            <>
              <PostingCame came={came} />
              <Roster
                key={proposalKey(days)}
                watches={days}
                summary={`${count(days.length, 'day')}, proposed by who said that they can come and may have the role.`}
                press={days.length > 1 ? 'Post these days' : 'Post this day'}
                said="The roles are posted."
                post={(places) => run({ places })}
                posted={(posted) => {
                  setCame(posted);
                  again();
                }}
              />
              {days.map(({ turnout }) => (
                <Fragment key={turnout.id}>
                  <ChangeRoles turnout={turnout} changed={again} />
                  <CallOff turnout={turnout} calledOff={again} />
                </Fragment>
              ))}
              <p className="notice">{safetyNotice}</p>
            </>
          ) : (
            <Nothing>
              <p>No all-hands day is laid on.</p>
            </Nothing>
          )
        }
      </Asked>
    </Page>
  );
}
