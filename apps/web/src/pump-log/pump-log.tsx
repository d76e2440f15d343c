import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { TurnoutLead } from '../parts/turnout-lead.js';
import { dayOf, sayDay, timeOf } from '../words/dates.js';
import { type PumpLog, PumpLogQuestion, type Written } from './pump-log.question.js';
import { sayRound, sayTrend } from './pump-words.js';
import { RoundForm } from './round-form.js';

/** The pump log of one watch, on a page of its own for the phone of who is on it. */
export function PumpLogPage({ turnoutId }: { turnoutId: string }) {
  const { me } = useYard();
  const [answer, again] = useAsk(PumpLogQuestion, { turnoutId }, 'roster');
  return (
    <Page title="Pump log" lead={<TurnoutLead turnout={answer.data?.pumpLog?.turnout} />}>
      <p>
        {me.role === 'VOLUNTEER' ? (
          <a href={to('places')}>Back to my places</a>
        ) : (
          <a href={to('week', 'watches')}>Back to the watches</a>
        )}
      </p>
      <Asked answer={answer} what="the pump log" again={again}>
        {({ pumpLog, safetyNotice }) => (
          <>
            {pumpLog ? <Log log={pumpLog} changed={again} /> : null}
            <p className="notice">{safetyNotice}</p>
          </>
        )}
      </Asked>
    </Page>
  );
}

/** The log of the watch that goes on, or of the last, as a part of another page; nothing before the first. */
export function PumpLogNow() {
  const [answer, again] = useAsk(PumpLogQuestion, { turnoutId: null }, 'roster');
  return (
    <Asked answer={answer} what="the pump log" again={again}>
      {({ pumpLog }) =>
        pumpLog ? (
          <Section title="Pump log" id="pump-log">
            <p>
              The watch of {sayDay(pumpLog.turnout.on)}, {pumpLog.turnout.startTime} to{' '}
              {pumpLog.turnout.endTime}.
            </p>
            <Log log={pumpLog} changed={again} />
          </Section>
        ) : null
      }
    </Asked>
  );
}

function Log({ log, changed }: { log: PumpLog; changed: () => void }) {
  const { me } = useYard();
  const { units } = me.organisation;
  const at = useMoment(log.turnout.on);
  return (
    <>
      {log.warnings.length ? (
        <ul className="notices">
          {log.warnings.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      ) : null}
      {log.trends.length ? (
        <ul className="plain">
          {log.trends.map((trend) => (
            <li key={trend.measure}>{sayTrend(trend, units, at)}</li>
          ))}
        </ul>
      ) : (
        <p className="pencil">How it goes is said from the second round on.</p>
      )}
      {log.mayWrite ? (
        <RoundForm turnout={log.turnout} entry={null} changed={changed} />
      ) : (
        <p className="pencil">Who is on this watch and who leads write it.</p>
      )}
      {log.lines.length ? (
        <ol className="jobs plain">
          {log.lines.map(({ now, before, struck }) => (
            <li key={before.at(-1)?.id ?? now.id}>
              <p>
                <strong>{at(now.readAt)}</strong>:{' '}
                {struck ? `struck out, because ${now.reason ?? ''}` : sayRound(now, units)}. {now.doneBy}.
                {now.remark ? ` ${now.remark}` : ''}
              </p>
              {before.length ? (
                <details className="fold">
                  <summary>How it was written before</summary>
                  <ol reversed>
                    {[now, ...before].map((one) => (
                      <Before key={one.id} one={one} at={at} />
                    ))}
                  </ol>
                </details>
              ) : null}
              {log.mayWrite ? <RoundForm turnout={log.turnout} entry={now} changed={changed} /> : null}
            </li>
          ))}
        </ol>
      ) : (
        <p>Nothing is written down on this watch.</p>
      )}
    </>
  );
}

/** One writing in the trail. */
function Before({ one, at }: { one: Written; at: (instant: string) => string }) {
  const { units } = useYard().me.organisation;
  return (
    <li>
      {one.writtenBy}, {at(one.writtenAt)}: {at(one.readAt)}, {sayRound(one, units)}, {one.doneBy}
      {one.reason ? `; because ${one.reason}` : ''}.
    </li>
  );
}

/** The time, and the day where it is not the watch's. */
function useMoment(on: string): (instant: string) => string {
  const { timeZone } = useYard();
  return (instant) => {
    const day = dayOf(instant, timeZone);
    const time = timeOf(instant, timeZone);
    return day === on ? time : `${time} on ${sayDay(day, on)}`;
  };
}
