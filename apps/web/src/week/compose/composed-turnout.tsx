import { list, lowerFirst } from '../../words/amounts.js';
import { sayShortDay } from '../../words/dates.js';
import { SwingHands, WorkHead } from '../proposed-turnout.js';
import { oddsOf } from '../roster.js';
import { TurnoutTop } from '../turnout-top.js';
import type { ComposedTurnout as Composed, ProposedPlace, Work } from '../week.question.js';
import { sayPut } from './put-form.js';
import type { Composing } from './use-composer.js';

interface Picking {
  composing: Composing;
  /** Who is picked; '' for nobody. */
  who: string;
  pick: (volunteerId: string) => void;
}

/** One turnout that is being put together: a press on a name picks it up, a press on a place puts it there. */
export function ComposedTurnout({ proposed, ...picking }: Picking & { proposed: Composed }) {
  const { turnout, work, unplaced, notices } = proposed;
  return (
    <article aria-labelledby={turnout.id} className="turnout">
      <TurnoutTop turnout={turnout} notices={notices} />
      {work.length ? (
        <ol className="jobs">
          {work.map((each) => (
            <li key={each.task.id + each.startsAt}>
              <ComposedWork work={each} proposed={proposed} {...picking} />
            </li>
          ))}
        </ol>
      ) : (
        <p>Nothing on the hull can be done at this turnout.</p>
      )}
      <SwingHands proposed={proposed} />
      {unplaced.length ? (
        <div className="unplaced">
          <strong>No work yet for</strong>
          <ul className="idle">
            {unplaced.map((hand) => (
              <li key={hand.volunteerId}>
                <NameButton hand={hand} {...picking} />
              </li>
            ))}
          </ul>
        </div>
      ) : null}
    </article>
  );
}

function ComposedWork({ work, proposed, ...picking }: Picking & { work: Work; proposed: Composed }) {
  const { places } = work;
  const open = places.filter((place) => place.key && !place.hand);
  return (
    <div className="job">
      <WorkHead work={work} turnout={proposed.turnout} odds={oddsOf(proposed, work.task.id)} />
      <ul className="hands">
        {places.map((place, n) =>
          place.hand ? (
            <li key={place.key ?? n}>
              <span className="hand-name">
                <NameButton hand={place.hand} {...picking} />
                <PutHere place={place} work={work} proposed={proposed} {...picking} />
              </span>
              <span className="hand-why">
                {place.why} <Keep place={place} work={work} {...picking} />
              </span>
            </li>
          ) : null,
        )}
        {open[0] ? (
          <li>
            <span className="hand-name">{list([...new Set(open.map(sayOpenPlace))])}</span>
            <span className="hand-why">
              {[...new Map(open.map((place) => [sayOpenPlace(place), place])).values()].map((place) => (
                <PutHere key={place.key} place={place} work={work} proposed={proposed} {...picking} />
              ))}
            </span>
          </li>
        ) : null}
      </ul>
    </div>
  );
}

const sayOpenPlace = (place: ProposedPlace): string =>
  place.skill ? `open for ${lowerFirst(place.skill.name)}` : 'open for a hand';

function NameButton({ hand, who, pick }: Picking & { hand: { volunteerId: string; name: string } }) {
  const isPicked = hand.volunteerId === who;
  return (
    <button
      type="button"
      className="name-button"
      aria-pressed={isPicked}
      onClick={() => {
        pick(isPicked ? '' : hand.volunteerId);
      }}
    >
      {hand.name}
    </button>
  );
}

function PutHere({
  place,
  work,
  proposed,
  composing,
  who,
}: Picking & { place: ProposedPlace; work: Work; proposed: Composed }) {
  const { key } = place;
  const name = composing.week.crew.find((hand) => hand.volunteerId === who)?.name;
  if (!key || !name || place.hand?.volunteerId === who) return null;
  return (
    <button
      type="button"
      className="quiet put-here"
      disabled={composing.busy}
      onClick={() => void composing.put(key, who, sayPut(composing.week, key, name))}
    >
      Put {name} here
      <span className="unseen">
        : {place.skill?.name ?? 'a hand'}, {work.task.title}, {sayShortDay(proposed.turnout.on)}
        {place.hand ? `, for ${place.hand.name}` : ''}
      </span>
    </button>
  );
}

/** Marks a place to be kept when another roster is proposed, or leaves it open. */
function Keep({ place, work, composing }: Picking & { place: ProposedPlace; work: Work }) {
  const { key, hand, fixed } = place;
  if (!key || !hand) return null;
  const on = `${hand.name} on ${work.task.title}`;
  return (
    <span className="keep">
      <label>
        <input
          type="checkbox"
          checked={fixed}
          disabled={composing.busy}
          onChange={(event) => {
            composing.mark(key, event.target.checked);
          }}
        />{' '}
        Keep<span className="unseen"> {on}</span>
      </label>
      <button
        type="button"
        className="quiet"
        disabled={composing.busy}
        onClick={() => void composing.put(key, null, sayPut(composing.week, key, null))}
      >
        Take off<span className="unseen"> {on}</span>
      </button>
    </span>
  );
}
