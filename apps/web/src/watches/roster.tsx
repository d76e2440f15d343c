import { useState } from 'react';
import { useSay } from '../live/announcer.js';
import type { Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Choice } from '../parts/field.js';
import { Form } from '../parts/form.js';
import { capital, count, lowerFirst } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';
import type { Watch, WatchPlace } from './watches.question.js';

/** Another proposal starts the form anew. */
export const proposalKey = (watches: readonly Watch[]): string =>
  watches
    .flatMap(({ places }) => places.map(({ placeId, hand }) => placeId + (hand?.volunteerId ?? '')))
    .join();

export interface Came {
  outcome: Outcome<unknown> | null;
  turnedAway: string[];
}

export function PostingCame({ came: { outcome, turnedAway } }: { came: Came }) {
  return (
    <>
      <Answer
        outcome={outcome}
        done="Posted. Everybody named is asked under their places; the rest stands open to whoever may take it."
      />
      {turnedAway.length ? (
        <ul className="notices">
          {turnedAway.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      ) : null}
    </>
  );
}

interface RosterProps {
  watches: readonly Watch[];
  /** What is said of the whole proposal. */
  summary: string;
  press: string;
  /** What is said aloud when it was done. */
  said: string;
  post: (
    places: { placeId: string; volunteerId: string | null }[],
  ) => Promise<Outcome<{ turnedAway: string[] }>>;
  posted: (came: Came) => void;
}

/** Who would be on which place of some watches or all-hands days, to be changed and posted. */
export function Roster({ watches, summary, press, said, post, posted }: RosterProps) {
  const say = useSay();
  const [busy, setBusy] = useState(false);
  const places = watches.flatMap((watch) => watch.places);
  const open = places.filter(({ hand }) => !hand).length;
  return (
    <Form
      send={async (filled) => {
        const free = places.filter(({ taken }) => !taken);
        setBusy(true);
        const asked = await post(
          free.map(({ placeId }) => ({ placeId, volunteerId: filled.textOrNull(placeId) })),
        );
        setBusy(false);
        if (asked.kind === 'done') say(said);
        posted({ outcome: asked, turnedAway: asked.kind === 'done' ? asked.done.turnedAway : [] });
      }}
    >
      <p>
        {summary}{' '}
        {open
          ? `${count(open, 'place')} with nobody left for them stay open to volunteers.`
          : 'Every place has somebody.'}
      </p>
      <ol className="jobs plain">
        {watches.map((watch) => (
          <li key={watch.turnout.id}>
            <h2>
              {watch.turnout.note
                ? `${watch.turnout.note}, ${sayDay(watch.turnout.on)}`
                : sayDay(watch.turnout.on)}{' '}
              <span className="pencil">
                {watch.turnout.startTime} to {watch.turnout.endTime}
              </span>
            </h2>
            {watch.notices.map((words) => (
              <p key={words} className="gap">
                {words}
              </p>
            ))}
            <div className="row">
              {watch.places.map((place) => (
                <Seat key={place.placeId} place={place} watch={watch} />
              ))}
            </div>
          </li>
        ))}
      </ol>
      <button type="submit" className="deed" disabled={busy}>
        {press}
      </button>
    </Form>
  );
}

function Seat({ place, watch }: { place: WatchPlace; watch: Watch }) {
  const what = place.role ?? place.skill?.name ?? 'Hand';
  if (place.taken)
    return (
      <p>
        <strong>{place.hand?.name}</strong>, {lowerFirst(what)}. Has said yes.
      </p>
    );
  const label = (
    <>
      {capital(what)}
      <span className="unseen">
        , {sayDay(watch.turnout.on)} {watch.turnout.startTime}
      </span>
    </>
  );
  return (
    <Choice
      id={place.placeId}
      name={place.placeId}
      label={label}
      hint={place.why}
      defaultValue={place.hand?.volunteerId ?? ''}
    >
      <option value="">open</option>
      {[place.hand, ...place.could].map((hand) =>
        hand ? (
          <option key={hand.volunteerId} value={hand.volunteerId}>
            {hand.name}
          </option>
        ) : null,
      )}
    </Choice>
  );
}
