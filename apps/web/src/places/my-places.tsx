import type { KeptOutcome } from '../live/kept-deeds.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Nothing } from '../parts/asked.js';
import { Section } from '../parts/page.js';
import { sayPosition } from '../words/tasks.js';
import { MyPlace } from './my-place.js';
import type { Mine } from './places.question.js';

interface MyPlacesProps {
  places: Mine[];
  /** Leaving later than so many hours before a place starts is late. */
  lateHours: number;
  notice: string;
  settle: (outcome: KeptOutcome<unknown>, words: string) => void;
}

/** Where I am asked to come, where I have said that I will, and what has gone by. */
export function MyPlaces({ places, lateHours, notice, settle }: MyPlacesProps) {
  const { today } = useYard();
  const asked = places.filter((place) => place.state === 'POSTED' && place.turnout.on >= today);
  const coming = places.filter((place) => place.state === 'TAKEN' && place.turnout.on >= today);
  const past = places.filter((place) => place.state === 'TAKEN' && place.turnout.on < today);
  const list = (some: Mine[]) => (
    <ol className="places">
      {some.map((place) => (
        <li key={place.id}>
          <MyPlace place={place} lateHours={lateHours} notice={notice} settle={settle} />
        </li>
      ))}
    </ol>
  );
  return (
    <>
      {asked.length ? (
        <Section title="You are asked" id="asked">
          <p>The week’s roster has you here. Say whether you come.</p>
          {list(asked)}
        </Section>
      ) : null}
      <Section title="Where I am expected" id="mine">
        {coming.length ? (
          list(coming)
        ) : (
          <Nothing>
            <p>
              You have said yes to no place yet. Take one below, or wait for the coordinator to post the week.
            </p>
          </Nothing>
        )}
      </Section>
      {past.length ? <Past places={past} /> : null}
    </>
  );
}

/** Turnouts gone by: the tally may still be owed. */
function Past({ places }: { places: Mine[] }) {
  return (
    <Section title="Gone by" id="past">
      <ul className="plain">
        {places.map((place) => (
          <li key={place.id}>
            <a href={to('tally', place.task.id)}>
              Enter what was done: {place.task.title}, {sayPosition(place.task.position)}
            </a>
          </li>
        ))}
      </ul>
    </Section>
  );
}
