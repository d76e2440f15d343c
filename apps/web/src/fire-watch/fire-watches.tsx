import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Cautions } from '../parts/cautions.js';
import { Page, Section } from '../parts/page.js';
import { TurnoutLead } from '../parts/turnout-lead.js';
import { dayOf, sayDay, timeOf } from '../words/dates.js';
import { FireWatchesQuestion, type Fire, type Written } from './fire-watch.question.js';
import { WatchForm } from './watch-form.js';

/** The hot work of one turnout, on a page of its own for the phone of who watches. */
export function FireWatchPage({ turnoutId }: { turnoutId: string }) {
  const { me } = useYard();
  const [answer, again] = useAsk(FireWatchesQuestion, { turnoutId }, 'roster');
  const turnout = answer.data?.fireWatches[0]?.turnout;
  return (
    <Page title="Fire watch" lead={<TurnoutLead turnout={turnout} />}>
      <p>
        {me.role === 'VOLUNTEER' ? (
          <a href={to('places')}>Back to my places</a>
        ) : (
          <a href={to('call', turnoutId)}>Back to the turnout</a>
        )}
      </p>
      <Asked answer={answer} what="the fire watch" again={again}>
        {({ fireWatches, safetyNotice }) =>
          fireWatches.length ? (
            fireWatches.map((fire) => (
              <Section key={fire.task.id} title={fire.task.title} id={`fire-${fire.task.id}`}>
                <Cautions cautions={fire.task.cautionLines} notice={safetyNotice} />
                <FireWatch fire={fire} changed={again} />
              </Section>
            ))
          ) : (
            <p>Nobody is down for hot work at this turnout.</p>
          )
        }
      </Asked>
    </Page>
  );
}

/** The fire watches of a turnout as a part of another page; nothing where there is no hot work. */
export function FireWatchesOf({ turnoutId }: { turnoutId: string }) {
  const [answer, again] = useAsk(FireWatchesQuestion, { turnoutId }, 'roster');
  const fires = answer.data?.fireWatches ?? [];
  const notice = answer.data?.safetyNotice ?? '';
  if (!fires.length) return null;
  return (
    <Section title="Fire watch" id={`fire-watch-${turnoutId}`}>
      {fires.map((fire) => (
        <article key={fire.task.id} aria-label={fire.task.title}>
          <h3>{fire.task.title}</h3>
          <details className="fold">
            <summary>Cautions and who decides</summary>
            <Cautions cautions={fire.task.cautionLines} notice={notice} level="h4" />
          </details>
          <FireWatch fire={fire} changed={again} />
        </article>
      ))}
    </Section>
  );
}

/** What still waits for a later look, or for anything else to be written down, of the last thirty days. */
export function FiresToComeBackTo() {
  const [answer] = useAsk(FireWatchesQuestion, { turnoutId: null }, 'roster');
  const fires = answer.data?.fireWatches ?? [];
  if (!fires.length) return null;
  return (
    <Section title="After hot work" id="after-hot-work">
      <ul className="plain">
        {fires.map(({ turnout, task, missing }) => (
          <li key={`${turnout.id} ${task.id}`}>
            <p className="gap">
              {sayDay(turnout.on)}: {missing ?? task.title}
            </p>
            <p>
              <a href={to('watch', turnout.id)}>Write it down</a>
            </p>
          </li>
        ))}
      </ul>
    </Section>
  );
}

function FireWatch({ fire, changed }: { fire: Fire; changed: () => void }) {
  const { timeZone } = useYard();
  const [now, ...earlier] = fire.written;
  return (
    <>
      {now ? (
        <ul className="plain">{linesOf(fire, now, (instant) => sayAt(fire, instant, timeZone))}</ul>
      ) : null}
      {fire.missing ? <p className="gap">{fire.missing}</p> : null}
      {fire.mayWrite ? (
        <WatchForm fire={fire} changed={changed} />
      ) : (
        <p className="pencil">The watch and who leads the turnout write it down.</p>
      )}
      {earlier.length ? (
        <details className="fold">
          <summary>How it was written before</summary>
          <ol reversed>
            {[now, ...earlier].map((one) => (one ? <Before key={one.version} one={one} /> : null))}
          </ol>
        </details>
      ) : null}
    </>
  );
}

function useMoment(): (instant: string) => string {
  const { timeZone } = useYard();
  return (instant) => `${timeOf(instant, timeZone)} on ${sayDay(dayOf(instant, timeZone))}`;
}

/** The time, and the day where it is not the turnout's. */
function sayAt({ turnout }: Fire, instant: string, timeZone: string): string {
  const day = dayOf(instant, timeZone);
  const time = timeOf(instant, timeZone);
  return day === turnout.on ? time : `${time} on ${sayDay(day, turnout.on)}`;
}

function linesOf({ staysUntil, minutes, hasCard }: Fire, now: Written, at: (instant: string) => string) {
  if (now.notLit) return <li>No hot work was done: {now.notLit}</li>;
  return (
    <>
      <li>
        {now.watch?.name} watches.
        {hasCard === false ? ' No card for the watch that counts that day is on record for them.' : ''}
      </li>
      <li>
        {now.lastSparkAt && staysUntil
          ? `Last spark at ${at(now.lastSparkAt)}: the watch does not end before ${at(staysUntil)}, ${minutes} minutes after it.`
          : `The last spark is still to come; the watch stays ${minutes} minutes after it.`}
      </li>
      {now.lookedAt ? (
        <li>
          Later look at {at(now.lookedAt)} by {now.lookBy}: {now.found}
        </li>
      ) : now.lookDueAt ? (
        <li>
          {now.lookBy} looks again at {at(now.lookDueAt)}.
        </li>
      ) : null}
    </>
  );
}

/** One writing in the trail. */
function Before({ one }: { one: Written }) {
  const moment = useMoment();
  const parts = [
    one.notLit ? `no hot work: ${one.notLit}` : `watch ${one.watch?.name ?? ''}`,
    one.lastSparkAt ? `last spark ${moment(one.lastSparkAt)}` : null,
    one.lookDueAt ? `look to come by ${one.lookBy ?? ''} ${moment(one.lookDueAt)}` : null,
    one.lookedAt ? `look by ${one.lookBy ?? ''} ${moment(one.lookedAt)}: ${one.found ?? ''}` : null,
    one.reason ? `because ${one.reason}` : null,
  ].filter((part) => part !== null);
  return (
    <li>
      {one.writtenBy}, {moment(one.writtenAt)}: {parts.join('; ')}.
    </li>
  );
}
