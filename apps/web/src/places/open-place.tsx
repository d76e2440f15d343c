import { type KeptOutcome, useIsWaiting } from '../live/kept-deeds.js';
import { Cautions } from '../parts/cautions.js';
import { useQuestionFocus } from '../parts/focus.js';
import { capital, count, list, sayNumber } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';
import { PlaceWords } from './place-words.js';
import type { Open } from './places.question.js';
import { useTake } from './take.js';

interface OpenPlaceProps {
  /** Open places that are all alike; the first is the one that is taken. */
  alike: Open[];
  notice: string;
  /** Whether the second tap is being waited for. */
  asking: boolean;
  ask: (underWay: boolean) => void;
  putAway: () => void;
  settle: (outcome: KeptOutcome<unknown>, words: string) => void;
}

/** A place to take in two taps: the first lays the cautions open in plain words above the yes. */
export function OpenPlace({ alike, notice, asking, ask, putAway, settle }: OpenPlaceProps) {
  const { run, busy } = useTake();
  const { opener, answer: yes } = useQuestionFocus(asking);

  const [first] = alike;
  const isWaiting = useIsWaiting('placeId', first?.place.id ?? '');
  if (!first) return null;
  const { place, alongside, cautions, useful } = first;

  async function take() {
    ask(true);
    const what = `${place.task.title} on ${sayDay(place.turnout.on)}, from ${place.turnout.startTime}`;
    const done = `The place is yours: ${what}.`;
    settle(await run({ placeId: place.id }, { what: `Take the place ${what}`, done }), done);
  }

  return (
    <article className="place" aria-labelledby={`${place.id}-what`}>
      <PlaceWords place={place} />
      {useful.length ? <p className="useful">{useful.join(' ')}</p> : null}
      <p>
        {alike.length > 1 ? `${capital(sayNumber(alike.length))} places open. ` : ''}
        {alongside.length
          ? `With ${list(alongside.map((hand) => hand.name))}.`
          : 'Nobody else has this work yet.'}
      </p>
      <details className="fold" open={asking}>
        <summary>
          {cautions.length ? capital(count(cautions.length, 'caution')) : 'No caution is written down'}, and
          who decides
        </summary>
        <Cautions cautions={cautions} notice={notice} level="h4" />
      </details>
      {isWaiting ? (
        <p className="pencil">You have pressed yes. It waits for the line.</p>
      ) : asking ? (
        <div className="buttons asking">
          <button type="button" ref={yes} className="deed" onClick={() => void take()} disabled={busy}>
            {busy ? 'Taking it…' : 'Yes, I will be there'}
          </button>
          <button type="button" className="quiet" onClick={putAway}>
            Not now
          </button>
        </div>
      ) : (
        <div className="buttons">
          <button
            type="button"
            ref={opener}
            className="deed"
            onClick={() => {
              ask(false);
            }}
            aria-describedby={`${place.id}-what`}
          >
            Take this place
          </button>
        </div>
      )}
    </article>
  );
}
