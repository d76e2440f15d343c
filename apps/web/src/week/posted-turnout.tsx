import { to } from '../live/route.js';
import { list, lowerFirst } from '../words/amounts.js';
import { CautionFold } from './caution-fold.js';
import { Gaps } from './gaps.js';
import { ProposedWork, SwingHands as Proposed } from './proposed-turnout.js';
import { byTask, oddsOf, sayAnswer, sayOpen, type Standing } from './roster.js';
import { TurnoutTop } from './turnout-top.js';
import type { Turnout } from './week.question.js';

type Place = Turnout['turnout']['places'][number];

/** One turnout as it is posted: who holds which place, who took or left one since, what is open. */
export function PostedTurnout({ proposed }: { proposed: Turnout }) {
  const { turnout, work, notices, unplaced } = proposed;
  const standings = byTask(turnout.places);
  // Work that nobody could be asked for still waits for somebody.
  const waiting = work.filter(
    (each) => !each.places.length && !standings.some((standing) => standing.task.id === each.task.id),
  );
  const holding = new Set(
    turnout.places.filter((place) => place.state !== 'LEFT').map((place) => place.hand?.volunteerId),
  );
  const idle = unplaced.filter((hand) => !holding.has(hand.volunteerId));
  return (
    <article aria-labelledby={turnout.id} className="turnout">
      <TurnoutTop turnout={turnout} notices={notices} />
      {standings.length + waiting.length ? (
        <ol className="jobs">
          {standings.map((standing) => (
            <li key={standing.task.id}>
              <PostedWork standing={standing} odds={oddsOf(proposed, standing.task.id)} />
            </li>
          ))}
          {waiting.map((each) => (
            <li key={each.task.id}>
              <ProposedWork work={each} turnout={turnout} odds={undefined} />
            </li>
          ))}
        </ol>
      ) : (
        <p>Nobody is posted to this turnout.</p>
      )}
      {turnout.cancelled ? null : (
        <p>
          <a href={to('week', 'stops', turnout.id)}>What stops people here, and what is set aside</a>
        </p>
      )}
      <SwingHands proposed={proposed} />
      {idle.length ? (
        <p className="unplaced">
          <strong>No work yet for</strong> {list(idle.map((hand) => hand.name))}.
        </p>
      ) : null}
    </article>
  );
}

/** Who was asked to stand by, and who said no; as it is proposed where nobody is posted yet. */
function SwingHands({ proposed }: { proposed: Turnout }) {
  const { places, swingHands } = proposed.turnout;
  if (!places.length) return <Proposed proposed={proposed} />;
  const named = (all: typeof swingHands) => list(all.map(({ hand }) => hand.name));
  const standing = swingHands.filter(({ leftAt }) => !leftAt);
  const left = swingHands.filter(({ leftAt }) => leftAt);
  return swingHands.length ? (
    <p className="unplaced">
      {standing.length ? (
        <>
          <strong>Swing hands</strong>: {named(standing)}. They are told, and asked first when a place comes
          free.{' '}
        </>
      ) : null}
      {left.length ? `Can’t stand by: ${named(left)}.` : null}
    </p>
  ) : null;
}

function PostedWork({ standing, odds }: { standing: Standing<Place>; odds: string | undefined }) {
  const { task, filled, left } = standing;
  return (
    <div className="job">
      <div>
        <h3>
          <a href={to('work', task.id)}>{task.title}</a>{' '}
          <span className="place-on-hull">{task.position}</span>
        </h3>
        {odds ? <p className="pencil">{odds}</p> : null}
        <Gaps gaps={sayOpen(standing, task.crewMin)} />
        <CautionFold title={task.title} lines={task.cautionLines.map(({ words }) => words)} />
      </div>
      <ul className="hands">
        {[...filled, ...left].map((place) => (
          <li key={place.id} className={place.state === 'LEFT' ? 'hand-left' : undefined}>
            <span className="hand-name">
              {place.hand?.name}
              {place.teacher ? <span className="pencil"> learns</span> : null}
            </span>
            <span className="hand-why">
              <strong>{sayAnswer(place)}</strong>.{' '}
              {place.why ?? (place.skill ? `For ${lowerFirst(place.skill.name)}.` : 'A hand.')}
            </span>
            {place.setAside.map((words) => (
              <span key={words} className="hand-why gap">
                {words}
              </span>
            ))}
          </li>
        ))}
      </ul>
    </div>
  );
}
