import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Page } from '../parts/page.js';
import { PrintButton } from '../parts/print-button.js';
import { capital } from '../words/amounts.js';
import { timeOf } from '../words/dates.js';
import { MorningSheetQuestion, type Sheet } from './call.question.js';
import { TurnoutLead } from '../parts/turnout-lead.js';
import { letterOf } from './paper.js';

/** The turnout on paper: for the wall, and for mornings on which nothing else works. */
export function WallSheet({ turnoutId }: { turnoutId: string }) {
  const [answer, again] = useAsk(MorningSheetQuestion, { turnoutId }, 'either');
  const turnout = answer.data?.morningSheet.turnout;
  return (
    <Page title="The sheet for the wall" lead={<TurnoutLead turnout={turnout} />}>
      <p className="no-print">
        <a href={to('call', turnoutId)}>Call the turnout</a>
      </p>
      <p className="no-print">
        <PrintButton />
      </p>
      <Asked answer={answer} what="the sheet" again={again}>
        {({ morningSheet, safetyNotice }) => <OnPaper sheet={morningSheet} notice={safetyNotice} />}
      </Asked>
    </Page>
  );
}

function OnPaper({ sheet, notice }: { sheet: Sheet; notice: string }) {
  const { timeZone } = useYard();
  const numbers = new Map(sheet.people.map(({ hand, number }) => [hand.volunteerId, number]));
  return (
    <div className="wall">
      <section aria-labelledby="wall-who">
        <h2 id="wall-who">Who is here</h2>
        <ol className="wall-people">
          {sheet.people.map(({ hand, number, expected, isFirstAider, isMinor }) => (
            <li key={hand.volunteerId}>
              <span className="wall-box" aria-hidden="true" /> <span className="wall-number">{number}</span>{' '}
              {expected ? <strong>{hand.name}</strong> : hand.name}
              {isFirstAider ? ' (first aid)' : ''}
              {isMinor ? ' (under 18)' : ''}
            </li>
          ))}
        </ol>
        <p>Those in heavy letters are expected. Others, by name (no work before induction and waiver):</p>
        <p className="wall-line" />
        <p className="wall-line" />
      </section>
      <section aria-labelledby="wall-work">
        <h2 id="wall-work">The work</h2>
        {sheet.work.map((work, i) => (
          <article key={work.task.id} className="wall-work">
            <h3>
              <span className="wall-letter">{letterOf(i)}</span> {work.task.title}{' '}
              <span className="place-on-hull">{work.task.position}</span>
            </h3>
            <p>
              {timeOf(work.startsAt, timeZone)} to {timeOf(work.endsAt, timeZone)}. Takes {work.task.crewMin}{' '}
              to {work.task.crewMax}
              {work.seats.map(({ skillName, count }) => `, ${count} for ${skillName.toLowerCase()}`).join('')}
              . Posted: {work.postedIds.map((id) => numbers.get(id)).join(' ') || 'nobody'}. On it:
              <span className="wall-blank" />
            </p>
            <RolesOnPaper roles={work.roles} people={sheet.people} />
            {work.closed ? <p className="gap">{work.closed}</p> : null}
            {work.setAside.map((words) => (
              <p key={words} className="gap">
                {words}
              </p>
            ))}
            <p className="wall-cautions">{work.cautions.map(({ words }) => words).join(' ')}</p>
          </article>
        ))}
        {sheet.work.length ? null : <p>Nothing is posted.</p>}
        <p className="notice">{notice}</p>
      </section>
    </div>
  );
}

/** Each role of an all-hands day and who has it; nothing on other work. */
function RolesOnPaper({ roles, people }: { roles: Sheet['work'][number]['roles']; people: Sheet['people'] }) {
  if (!roles.length) return null;
  const said = [...new Set(roles.map(({ role }) => role))].map((role) => ({
    role,
    names: roles
      .filter((one) => one.role === role)
      .map(({ volunteerId }) => {
        const person = people.find(({ hand }) => hand.volunteerId === volunteerId);
        return person ? `${person.number} ${person.hand.name}` : 'open';
      }),
  }));
  return (
    <dl className="wall-roles">
      {said.map(({ role, names }) => (
        <div key={role}>
          <dt>{capital(role)}</dt>
          <dd>{names.join(', ')}</dd>
        </div>
      ))}
    </dl>
  );
}
