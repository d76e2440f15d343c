import { useState } from 'react';
import { useDeed, type Outcome } from '../../live/deed.js';
import { useYard } from '../../live/yard.js';
import { Answer } from '../../parts/answer.js';
import { count } from '../../words/amounts.js';
import { dayOf, sayShortDay, timeOf } from '../../words/dates.js';
import { PostWeek, type PostingCame } from '../post-week.js';
import type { ComposedWeek } from '../week.question.js';
import { KeepDraftDeed } from './compose.question.js';
import { ComposedTurnout } from './composed-turnout.js';
import { placedIn } from './placed.js';
import { PutForm } from './put-form.js';
import { useComposer, type Came } from './use-composer.js';

/** The coordinator's table: the week as it is proposed, to be changed person by person, proposed anew, kept and posted. */
export function Composer({
  week: given,
  again,
  posted,
  came,
  setCame,
}: {
  week: ComposedWeek;
  again: () => void;
  posted: () => void;
  came: PostingCame;
  setCame: (came: PostingCame) => void;
}) {
  const composing = useComposer(given);
  const [who, pick] = useState('');
  const { week } = composing;
  const places = placedIn(week);
  const kept = places.filter((place) => place.fixed).length;
  return (
    <div className="composer">
      <p>
        {week.posted
          ? 'People are told of a change only once you post again.'
          : 'This is a proposal: nobody has been told yet.'}{' '}
        Look it over first. To move somebody, choose who and where and press “Put there”, or press a name
        below and then a place. Tick “Keep” beside whoever shall stay; “Propose again” finds the others anew.
        When it is right, post it.
      </p>
      <div className="composer-top">
        <PutForm composing={composing} who={who} pick={pick} />
        {composing.fault ? (
          <p className="answer answer-no" role="alert">
            {composing.fault}
          </p>
        ) : null}
        {composing.came ? (
          <WhatCame
            came={composing.came}
            undo={() => {
              composing.undo();
            }}
          />
        ) : null}
      </div>
      {composing.isStale ? (
        <p className="gap" role="status">
          Something has changed meanwhile, and there is a newer plan. Propose again, then post.
        </p>
      ) : null}
      {week.notices.map((notice) => (
        <p key={notice} className="gap">
          {notice}
        </p>
      ))}
      <p className="composer-again">
        <button
          type="button"
          className="quiet"
          disabled={composing.busy}
          onClick={() => void composing.proposeAgain()}
        >
          {composing.busy
            ? 'One moment…'
            : `Propose again, keeping ${kept ? count(kept, 'marked place') : 'nothing'}`}
        </button>
      </p>
      <Draft week={week} draft={given.draft} isOwn={composing.isOwn} kept={again} />
      <PostWeek
        week={week}
        places={places}
        came={came}
        setCame={setCame}
        posted={() => {
          composing.letGo();
          posted();
        }}
      />
      <ol className="turnouts">
        {week.turnouts.map((each) => (
          <li key={each.turnout.id}>
            <ComposedTurnout proposed={each} composing={composing} who={who} pick={pick} />
          </li>
        ))}
      </ol>
    </div>
  );
}

/** What the last change breaks, and which odds it moves. */
function WhatCame({ came, undo }: { came: Came; undo: () => void }) {
  const titles = new Map(
    came.before.turnouts.flatMap(({ work }) => work.map(({ task }) => [task.id, task.title])),
  );
  return (
    <div className={came.breaks.length ? 'answer answer-no' : 'answer answer-yes'}>
      <p className="answer-what">{came.what}</p>
      {came.breaks.length ? (
        <ul>
          {came.breaks.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      ) : (
        <p>Nothing on record speaks against it.</p>
      )}
      {came.odds.length ? (
        <ul>
          {came.odds.map(({ turnoutId, taskId, before, after }) => (
            <li key={turnoutId + taskId}>
              {titles.get(taskId)}: {after ?? 'nobody is on it.'}{' '}
              <span className="pencil">Before: {before ?? 'nobody was on it.'}</span>
            </li>
          ))}
        </ul>
      ) : null}
      <button type="button" className="quiet" onClick={undo}>
        Undo
      </button>
    </div>
  );
}

function Draft({
  week,
  draft,
  isOwn,
  kept,
}: {
  week: ComposedWeek;
  /** As the server has it. */
  draft: ComposedWeek['draft'];
  isOwn: boolean;
  kept: () => void;
}) {
  const { timeZone } = useYard();
  const { run, busy } = useDeed(KeepDraftDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const { planId, weekOf } = week;

  async function keep() {
    if (!planId) return;
    setOutcome(await run({ weekOf, planId, places: placedIn(week) }));
    kept();
  }

  return (
    <div className="composer-draft">
      <Answer outcome={outcome} done="Kept. Whoever opens this week goes on from here." />
      {draft ? (
        <p className="pencil">
          A draft, kept by {draft.keptBy} on {sayShortDay(dayOf(draft.keptAt, timeZone))} at{' '}
          {timeOf(draft.keptAt, timeZone)}.
        </p>
      ) : null}
      {isOwn ? (
        <button type="button" className="quiet" disabled={busy} onClick={() => void keep()}>
          Keep as a draft
        </button>
      ) : null}
    </div>
  );
}
