import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page } from '../parts/page.js';
import { capital, count, list } from '../words/amounts.js';
import { addDays, mondayOf, sayDay } from '../words/dates.js';
import { CallOff } from './call-off.js';
import { PostWeek } from './post-week.js';
import { PostedTurnout } from './posted-turnout.js';
import { ProposedTurnout } from './proposed-turnout.js';
import { isMissing } from './roster.js';
import { SecondVersion } from './second-version.js';
import { WeekQuestion, type WeekOfTurnouts } from './week.question.js';
import './week.css';

export function Week({ weekOf }: { weekOf: string | null }) {
  const { today } = useYard();
  const [answer, again] = useAsk(WeekQuestion, { weekOf }, 'either');
  const monday = mondayOf(answer.data?.weekProposal.weekOf ?? weekOf ?? today);
  return (
    <Page
      title={`The week of ${sayDay(monday)}`}
      lead={answer.data ? <p>{sumUp(answer.data.weekProposal)}</p> : null}
    >
      <OtherWeeks monday={monday} />
      <Asked answer={answer} what="the week" again={again}>
        {({ weekProposal, safetyNotice }) => (
          <WholeWeek week={weekProposal} notice={safetyNotice} again={again} />
        )}
      </Asked>
    </Page>
  );
}

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
  const runsTheWeek = me.role === 'COORDINATOR' || me.role === 'DIRECTOR';
  if (!week.turnouts.length) {
    return (
      <Nothing>
        <p>The yard has no turnout this week.</p>
      </Nothing>
    );
  }
  return (
    <>
      <PostWeek week={week} posted={again} />
      <ol className="turnouts">
        {week.turnouts.map((each) => (
          <li key={each.turnout.id}>
            {week.posted ? <PostedTurnout proposed={each} /> : <ProposedTurnout proposed={each} />}
            {week.posted && runsTheWeek && !each.turnout.cancelled ? (
              <SecondVersion turnout={each.turnout} changed={again} />
            ) : null}
            {runsTheWeek && !each.turnout.cancelled ? (
              <CallOff turnout={each.turnout} calledOff={again} />
            ) : null}
          </li>
        ))}
      </ol>
      <p className="notice">{notice}</p>
    </>
  );
}

/** "3 turnouts, 9 pieces of work, 14 people. 2 gaps to fill and 1 notice." */
function sumUp(week: WeekOfTurnouts): string {
  const work = week.turnouts.flatMap((each) => each.work);
  const people = new Set(work.flatMap((each) => each.crew.map((hand) => hand.hand.volunteerId)));
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
