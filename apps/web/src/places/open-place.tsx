import { useEffect, useRef, useState } from 'react';
import type { Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Cautions } from '../parts/cautions.js';
import { capital, list, sayNumber } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';
import { PlaceWords } from './place-words.js';
import type { Open } from './places.js';
import { useTake } from './take.js';

interface OpenPlaceProps {
  /** Open places that are all alike; the first is the one that is taken. */
  alike: Open[];
  notice: string;
  settle: (words: string) => void;
  /** Called when the place was refused, since it may be gone. */
  gone: () => void;
}

/** A place to take: the cautions stand in plain words above the button, two taps take it. */
export function OpenPlace({ alike, notice, settle, gone }: OpenPlaceProps) {
  const { run, busy } = useTake();
  const [asking, setAsking] = useState(false);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const yes = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (asking) yes.current?.focus();
  }, [asking]);

  const [first] = alike;
  if (!first) return null;
  const { place, alongside, cautions } = first;

  async function take() {
    const answer = await run({ placeId: place.id });
    if (answer.kind === 'done') {
      settle(
        `The place is yours: ${place.task.title} on ${sayDay(place.turnout.on)}, from ${place.turnout.startTime}.`,
      );
      return;
    }
    setAsking(false);
    setOutcome(answer);
    gone();
  }

  return (
    <article className="place" aria-labelledby={`${place.id}-what`}>
      <PlaceWords place={place} />
      <p>
        {alongside.length
          ? `With ${list(alongside.map((hand) => hand.name))}.`
          : 'Nobody else has this work yet.'}
      </p>
      <Cautions cautions={cautions.map((caution) => caution.words)} notice={notice} level="h4" />
      <Answer outcome={outcome} done="" />
      {asking ? (
        <div className="buttons asking">
          <button type="button" ref={yes} className="deed" onClick={take} disabled={busy}>
            {busy ? 'Taking it…' : 'Yes, I will be there'}
          </button>
          <button type="button" className="quiet" onClick={() => setAsking(false)}>
            Not now
          </button>
        </div>
      ) : (
        <div className="buttons">
          <button
            type="button"
            className="deed"
            onClick={() => setAsking(true)}
            aria-describedby={`${place.id}-what`}
          >
            Take this place
          </button>
        </div>
      )}
    </article>
  );
}
