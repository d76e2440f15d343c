import { useYard } from '../live/yard.js';
import { count } from '../words/amounts.js';
import { dayOf, sayShortDay, timeOf } from '../words/dates.js';
import type { WeekOfTurnouts } from './week.question.js';

/** What has changed since the week was posted, with when and by whom. */
export function Changes({ week }: { week: WeekOfTurnouts }) {
  const { timeZone } = useYard();
  if (!week.posted) return null;
  return (
    <section aria-labelledby="week-changes" className="week-changes">
      <h2 id="week-changes">Since it was posted</h2>
      {week.changes.length ? (
        <>
          <p className="pencil">{count(week.changes.length, 'change')}, the newest first.</p>
          <ol>
            {week.changes.map(({ at, who, what }) => (
              <li key={at + what}>
                {what}{' '}
                <span className="pencil">
                  {sayShortDay(dayOf(at, timeZone))} {timeOf(at, timeZone)}, {who}
                </span>
              </li>
            ))}
          </ol>
        </>
      ) : (
        <p>Nothing has changed.</p>
      )}
    </section>
  );
}
