import { useState } from 'react';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard, type Me } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page } from '../parts/page.js';
import { capital, count, list } from '../words/amounts.js';
import { addDays, mondayOf, sayDay } from '../words/dates.js';
import { Unclosed } from '../safety/unclosed.js';
import { CallOff } from './call-off.js';
import { Changes } from './changes.js';
import { Composer } from './compose/composer.js';
import { notPosted, PostWeek, sayPosted } from './post-week.js';
import { PostedTurnout } from './posted-turnout.js';
import { ProposedTurnout } from './proposed-turnout.js';
import { isMissing } from './roster.js';
import { SecondVersion } from './second-version.js';
import { WeekQuestion, type WeekOfTurnouts } from './week.question.js';
import './week.css';

export function Week({ weekOf }: { weekOf: string | null }) {
  const { me, today } = useYard();
  const [answer, again] = useAsk(WeekQuestion, { weekOf }, 'either');
  const monday = mondayOf(answer.data?.weekProposal.weekOf ?? weekOf ?? today);
  return (
    <Page
      title={`The week of ${sayDay(monday)}`}
      lead={answer.data ? <p>{sumUp(answer.data.weekProposal)}</p> : null}
    >
      {me.role === 'COORDINATOR' ? <Unclosed /> : null}
      <OtherWeeks monday={monday} />
      {runsTheWeek(me.role) ? (
        <p>
          <a href={to('week', 'closed')}>Closed days</a>, <a href={to('week', 'all-hands')}>all-hands days</a>{' '}
          such as a launch, and <a href={to('week', 'watches')}>watches afloat</a> after it
        </p>
      ) : null}
      <Asked answer={answer} what="the week" again={again}>
        {({ weekProposal, safetyNotice }) => (
          <WholeWeek week={weekProposal} notice={safetyNotice} again={again} />
        )}
      </Asked>
    </Page>
  );
}

const runsTheWeek = (role: Me['role']): boolean => role === 'COORDINATOR' || role === 'DIRECTOR';

function OtherWeeks({ monday }: { monday: string }) {
  return (
    <nav aria-label="Other weeks" className="weeks">
      <a href={to('week', addDays(monday, -7))}>The week before</a>
      <a href={to('week')}>The coming week</a>
      <a href={to('week', addDays(monday, 7))}>The week after</a>
    </nav>
  );
}

function WholeWeek({ week, notice, again }: { week: WeekOfTurnouts; notice: string; again: () => void }) {
  const { me } = useYard();
  const [changing, setChanging] = useState(false);
  const [came, setCame] = useState(notPosted);
  if (!week.turnouts.length) {
    return (
      <Nothing>
        <p>The yard has no turnout this week.</p>
      </Nothing>
    );
  }
  if (runsTheWeek(me.role) && week.planId && (!week.posted || changing))
    return (
      <>
        {week.posted ? (
          <button
            type="button"
            className="quiet"
            onClick={() => {
              setChanging(false);
            }}
          >
            Back to the week as it is posted
          </button>
        ) : null}
        <Composer
          week={week}
          again={again}
          came={came}
          setCame={setCame}
          posted={() => {
            setChanging(false);
            again();
          }}
        />
        <CallOffs week={week} again={again} />
        <p className="notice">{notice}</p>
      </>
    );
  return (
    <>
      <PostWeek week={week} posted={again} told={sayPosted(week)} came={came} setCame={setCame} />
      {runsTheWeek(me.role) && week.planId ? (
        <button
          type="button"
          className="quiet"
          onClick={() => {
            setChanging(true);
          }}
        >
          Change who is where
        </button>
      ) : null}
      <Changes week={week} />
      <ol className="turnouts">
        {week.turnouts.map((each) => (
          <li key={each.turnout.id}>
            {week.posted ? <PostedTurnout proposed={each} /> : <ProposedTurnout proposed={each} />}
            {week.posted && runsTheWeek(me.role) && !each.turnout.cancelled ? (
              <SecondVersion turnout={each.turnout} changed={again} />
            ) : null}
            {runsTheWeek(me.role) && !each.turnout.cancelled ? (
              <CallOff turnout={each.turnout} calledOff={again} />
            ) : null}
          </li>
        ))}
      </ol>
      {week.posted && me.role === 'COORDINATOR' ? (
        <p>
          <a href={to('week', 'slips', mondayOf(week.weekOf))}>Slips to hand out</a>, for those whom no
          message reaches
        </p>
      ) : null}
      <p className="notice">{notice}</p>
    </>
  );
}

function CallOffs({ week, again }: { week: WeekOfTurnouts; again: () => void }) {
  return week.turnouts
    .filter(({ turnout }) => !turnout.cancelled)
    .map(({ turnout }) => <CallOff key={turnout.id} turnout={turnout} calledOff={again} />);
}

/** "3 turnouts, 9 pieces of work, 14 people. 2 gaps to fill and 1 notice." */
function sumUp(week: WeekOfTurnouts): string {
  const work = week.turnouts.flatMap((each) => each.work);
  const people = new Set(
    work.flatMap((each) => each.places.flatMap((place) => place.hand?.volunteerId ?? [])),
  );
  const gaps = work.reduce((sum, each) => sum + each.gaps.filter(isMissing).length, 0);
  const notices = week.turnouts.reduce((sum, each) => sum + each.notices.length, 0);
  const asks = [gaps ? count(gaps, 'gap') : '', notices ? count(notices, 'notice') : ''].filter(Boolean);
  const sum = list([
    count(week.turnouts.length, 'turnout'),
    count(work.length, 'piece of work', 'pieces of work'),
    count(people.size, 'person', 'people'),
  ]);
  return `${capital(sum)}. ${asks.length ? `${capital(list(asks))} to look at.` : 'No gaps.'}`;
}
