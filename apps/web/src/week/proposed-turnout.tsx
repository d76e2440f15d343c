import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { list } from '../words/amounts.js';
import { timeOf } from '../words/dates.js';
import { CautionFold } from './caution-fold.js';
import { Gaps } from './gaps.js';
import { oddsOf } from './roster.js';
import { TurnoutTop } from './turnout-top.js';
import type { Turnout } from './week.question.js';

/** One turnout as the plan would have it: each piece of work, who is on it and why, and what is missing. */
export function ProposedTurnout({ proposed }: { proposed: Turnout }) {
  const { turnout, work, unplaced, notices } = proposed;
  return (
    <article aria-labelledby={turnout.id} className="turnout">
      <TurnoutTop turnout={turnout} notices={notices} />
      {work.length ? (
        <ol className="jobs">
          {work.map((each) => (
            <li key={each.task.id + each.startsAt}>
              <ProposedWork work={each} turnout={turnout} odds={oddsOf(proposed, each.task.id)} />
            </li>
          ))}
        </ol>
      ) : (
        <p>Nothing on the hull can be done at this turnout.</p>
      )}
      {unplaced.length ? (
        <p className="unplaced">
          <strong>No work yet for</strong> {list(unplaced.map((hand) => hand.name))}.
        </p>
      ) : null}
    </article>
  );
}

export function ProposedWork({
  work,
  turnout,
  odds,
}: {
  work: Turnout['work'][number];
  turnout: Turnout['turnout'];
  odds: string | undefined;
}) {
  const { timeZone } = useYard();
  return (
    <div className="job">
      <div>
        <h3>
          <a href={to('work', work.task.id)}>{work.task.title}</a>{' '}
          <span className="place-on-hull">{work.task.position}</span>
        </h3>
        <p className="pencil">{sayWhen(work, turnout, timeZone)}</p>
        {odds ? <p className="pencil">{odds}</p> : null}
        <Gaps gaps={work.gaps} />
        <CautionFold title={work.task.title} lines={work.cautions} />
      </div>
      <ul className="hands">
        {work.crew.map((hand) => (
          <li key={hand.hand.volunteerId}>
            <span className="hand-name">{hand.hand.name}</span>
            <span className="hand-why">{hand.why}</span>
          </li>
        ))}
      </ul>
    </div>
  );
}

/** Work without a crew waits: it has no hours of its own. */
function sayWhen(work: Turnout['work'][number], turnout: Turnout['turnout'], timeZone: string): string {
  if (!work.crew.length) return 'waits';
  const from = timeOf(work.startsAt, timeZone);
  const until = timeOf(work.endsAt, timeZone);
  const whole = from === turnout.startTime && until === turnout.endTime;
  return whole ? 'the whole turnout' : `${from} to ${until}`;
}
