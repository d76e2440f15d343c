import { to } from '../live/route.js';
import { list } from '../words/amounts.js';
import { byTask, sayAnswer, sayOpen, type Standing } from './roster.js';
import { TurnoutTop } from './turnout-top.js';
import type { Turnout } from './week.question.js';

type Place = Turnout['turnout']['places'][number];

/** One turnout as it is posted: who holds which place, who took or left one since, what is open. */
export function PostedTurnout({ proposed }: { proposed: Turnout }) {
  const { turnout, notices, unplaced } = proposed;
  const standings = byTask(turnout.places);
  const holding = new Set(
    turnout.places.filter((place) => place.state !== 'LEFT').map((place) => place.hand?.volunteerId),
  );
  const idle = unplaced.filter((hand) => !holding.has(hand.volunteerId));
  return (
    <article aria-labelledby={turnout.id} className="turnout">
      <TurnoutTop turnout={turnout} notices={notices} />
      {standings.length ? (
        <ol className="jobs">
          {standings.map((standing) => (
            <li key={standing.task.id}>
              <PostedWork standing={standing} />
            </li>
          ))}
        </ol>
      ) : (
        <p>Nobody is posted to this turnout.</p>
      )}
      {idle.length ? (
        <p className="unplaced">
          <strong>No work yet for</strong> {list(idle.map((hand) => hand.name))}.
        </p>
      ) : null}
    </article>
  );
}

function PostedWork({ standing }: { standing: Standing<Place> }) {
  const { task, filled, open, left } = standing;
  const gap = sayOpen(open);
  return (
    <div className="job">
      <div>
        <h3>
          <a href={to('work', task.id)}>{task.title}</a>{' '}
          <span className="place-on-hull">{task.position}</span>
        </h3>
        {gap ? <p className="gap">{gap}</p> : null}
      </div>
      <ul className="hands">
        {[...filled, ...left].map((place) => (
          <li key={place.id} className={place.state === 'LEFT' ? 'hand-left' : undefined}>
            <span className="hand-name">{place.hand?.name}</span>
            <span className="hand-why">
              <strong>{sayAnswer(place)}</strong>.{' '}
              {place.why ?? (place.skill ? `For ${place.skill.name}.` : 'A hand.')}
            </span>
          </li>
        ))}
      </ul>
    </div>
  );
}
