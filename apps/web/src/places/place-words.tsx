import { capital, lowerFirst } from '../words/amounts.js';
import { useYard } from '../live/yard.js';
import { sayDay, sayDistance, timeOf } from '../words/dates.js';
import type { Mine } from './places.question.js';

/** When and where: the first lines of every place. */
export function PlaceWords({ place }: { place: Mine }) {
  const { timeZone, today } = useYard();
  return (
    <>
      <p className="place-when">
        <strong>{sayDay(place.turnout.on)}</strong>{' '}
        <span className="pencil">
          {timeOf(place.startsAt, timeZone)} to {timeOf(place.endsAt, timeZone)},{' '}
          {sayDistance(place.turnout.on, today)}
        </span>
      </p>
      <h3 id={`${place.id}-what`}>
        {place.task.title} <span className="place-on-hull">{place.task.position}</span>
      </h3>
      {place.role ? (
        <p>
          <strong>{capital(place.role)}</strong>, on a day that takes all hands.
        </p>
      ) : null}
      {place.teacher && place.skill ? (
        <p>
          <strong>
            You learn {lowerFirst(place.skill.name)} with {place.teacher.name}.
          </strong>{' '}
          The work does not wait for you: you are there to learn.
        </p>
      ) : null}
      <p>{place.why ?? (place.skill ? `For ${lowerFirst(place.skill.name)}.` : 'As a hand.')}</p>
    </>
  );
}
