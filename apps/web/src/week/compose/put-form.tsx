import { useId, type Dispatch } from 'react';
import { useYard } from '../../live/yard.js';
import { Choice } from '../../parts/field.js';
import { lowerFirst } from '../../words/amounts.js';
import { sayShortDay, timeOf } from '../../words/dates.js';
import type { ComposedWeek, ProposedPlace } from '../week.question.js';
import type { Composing } from './use-composer.js';

/** First the person, then the place: two lists and a button. A press on a name or a place below does the same. */
export function PutForm({
  composing,
  who,
  pick,
}: {
  composing: Composing;
  who: string;
  pick: Dispatch<string>;
}) {
  const { week, busy } = composing;
  const id = useId();
  const name = week.crew.find((hand) => hand.volunteerId === who)?.name;

  function submit(form: HTMLFormElement) {
    const key = new FormData(form).get('place');
    if (typeof key !== 'string' || !key || !who) return;
    void composing.put(key, who, sayPut(week, key, name ?? ''));
  }

  return (
    <form
      className="put-form"
      aria-label="Put somebody on a place"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        submit(event.currentTarget);
      }}
    >
      <Choice
        id={`${id}-who`}
        name="who"
        label="Who"
        value={who}
        onChange={(event) => {
          pick(event.target.value);
        }}
      >
        <option value="">Choose somebody</option>
        {week.crew.map((hand) => (
          <option key={hand.volunteerId} value={hand.volunteerId}>
            {hand.name}
          </option>
        ))}
      </Choice>
      <Choice id={`${id}-where`} name="place" label="Where">
        <option value="">Choose a place</option>
        {week.turnouts.map((turnout) =>
          turnout.work.map((work) => (
            <optgroup
              key={turnout.turnout.id + work.task.id + work.startsAt}
              label={`${sayShortDay(turnout.turnout.on)}: ${work.task.title}`}
            >
              {work.places.map((place) =>
                place.key ? (
                  <option key={place.key} value={place.key}>
                    <PlaceInList place={place} />
                  </option>
                ) : null,
              )}
            </optgroup>
          )),
        )}
      </Choice>
      <button type="submit" className="quiet" disabled={busy || !who}>
        {busy ? 'One moment…' : 'Put there'}
      </button>
    </form>
  );
}

function PlaceInList({ place }: { place: ProposedPlace }) {
  const { timeZone } = useYard();
  const from = timeOf(place.startsAt, timeZone);
  return `${place.skill?.name ?? 'Hand'} from ${from}, ${place.hand ? `now ${place.hand.name}` : 'open'}`;
}

/** "Ysolde Pankhart is on “Make hole plugs”, Sat 13 Mar." */
export function sayPut(week: ComposedWeek, key: string, name: string | null): string {
  for (const { turnout, work } of week.turnouts)
    for (const { task, places } of work)
      for (const place of places)
        if (place.key === key) {
          const where = `“${task.title}”, ${sayShortDay(turnout.on)}`;
          return name === null
            ? `${place.hand?.name ?? 'Nobody'} is off ${where}.`
            : `${name} is on ${where}${place.skill ? `, for ${lowerFirst(place.skill.name)}` : ''}.`;
        }
  return '';
}
