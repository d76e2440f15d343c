import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { list } from '../words/amounts.js';
import { timeOf } from '../words/dates.js';
import { CautionFold } from './caution-fold.js';
import { Gaps } from './gaps.js';
import { oddsOf } from './roster.js';
import { TurnoutTop } from './turnout-top.js';
import type { ComposedTurnout } from './week.question.js';

/** One turnout as the plan would have it: each piece of work, who is on it and why, and what is missing. */
export function ProposedTurnout({ proposed }: { proposed: ComposedTurnout }) {
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
      <SwingHands proposed={proposed} />
      {unplaced.length ? (
        <p className="unplaced">
          <strong>No work yet for</strong> {list(unplaced.map((hand) => hand.name))}.
        </p>
      ) : null}
    </article>
  );
}

/** Who stands by, and what for. */
export function SwingHands({ proposed: { swingHands } }: { proposed: ComposedTurnout }) {
  if (!swingHands.length) return null;
  return (
    <p className="unplaced">
      <strong>Swing hands</strong>: {list(swingHands.map((hand) => hand.name))}. They go where somebody is
      missing, and until then stay where they are. They are told when you post the week.
    </p>
  );
}

interface WorkThere {
  work: ComposedTurnout['work'][number];
  turnout: ComposedTurnout['turnout'];
  odds: string | undefined;
}

/** What the work is, when, how likely its crew comes, what is missing and what to mind. */
export function WorkHead({ work, turnout, odds }: WorkThere) {
  const { timeZone } = useYard();
  return (
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
  );
}

export function ProposedWork({ work, turnout, odds }: WorkThere) {
  return (
    <div className="job">
      <WorkHead work={work} turnout={turnout} odds={odds} />
      <ul className="hands">
        {work.places.map((place, n) =>
          place.hand ? (
            <li key={place.key ?? n}>
              <span className="hand-name">
                {place.hand.name}
                {place.beside ? <span className="pencil"> learns</span> : null}
              </span>
              <span className="hand-why">{place.why}</span>
            </li>
          ) : null,
        )}
      </ul>
    </div>
  );
}

/** Work without a crew waits: it has no hours of its own. */
function sayWhen(
  work: ComposedTurnout['work'][number],
  turnout: ComposedTurnout['turnout'],
  timeZone: string,
): string {
  if (!work.places.length) return 'waits';
  const from = timeOf(work.startsAt, timeZone);
  const until = timeOf(work.endsAt, timeZone);
  const whole = from === turnout.startTime && until === turnout.endTime;
  return whole ? 'the whole turnout' : `${from} to ${until}`;
}
