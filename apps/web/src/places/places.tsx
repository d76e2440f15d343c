import { useEffect, useState } from 'react';
import { useAsk } from '../live/ask.js';
import type { KeptOutcome } from '../live/kept-deeds.js';
import { Answer } from '../parts/answer.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { count, sayNumber } from '../words/amounts.js';
import { gatherAlike } from './alike.js';
import { MySwings } from './my-swings.js';
import { MyPlaces } from './my-places.js';
import { OpenPlace } from './open-place.js';
import { PlacesQuestion, type Open } from './places.question.js';
import './places.css';

/** What somebody is about to take: when it leaves the list meanwhile, and not by their own yes, they are told. */
interface Pending {
  key: string;
  underWay: boolean;
}

/** As many as somebody reads on a phone before they choose. */
const fewGroups = 8;

const goneMeanwhile: KeptOutcome<never> = {
  kind: 'refused',
  refusal: {
    code: 'PLACE_TAKEN',
    message: 'That place has just gone: it is no longer open to you.',
    remedy: 'Look at the others below.',
    facts: [],
  },
};

export function Places() {
  const { me } = useYard();
  const [answer, again] = useAsk(PlacesQuestion, {}, 'either');
  const [settled, setSettled] = useState<{ outcome: KeptOutcome<unknown>; words: string } | null>(null);
  const [pending, setPending] = useState<Pending | null>(null);
  const [showsAll, setShowsAll] = useState(false);
  const all = answer.data?.openPlaces ?? [];
  // What has come free for who stands by is asked of them above.
  const freed = all.filter(({ standsBy }) => standsBy);
  const groups = gatherAlike(all.filter(({ standsBy }) => !standsBy));
  const shown = showsAll ? groups : groups.slice(0, fewGroups);
  const isGone =
    answer.data !== undefined &&
    pending !== null &&
    !pending.underWay &&
    !groups.some((group) => keyOf(group) === pending.key);

  function settle(outcome: KeptOutcome<unknown>, words: string) {
    setPending(null);
    setSettled({ outcome, words });
    again();
  }
  useEffect(() => {
    if (!isGone) return;
    setPending(null);
    setSettled({ outcome: goneMeanwhile, words: '' });
  }, [isGone]);

  return (
    <Page title="My places" lead={<p>{me.account.name}</p>}>
      <Answer outcome={settled?.outcome ?? null} done={settled?.words ?? ''} />
      <Asked answer={answer} what="your places" again={again}>
        {({ myPlaces, mySwings, rosterSettings, safetyNotice }) => (
          <>
            <MyPlaces
              places={myPlaces}
              lateHours={rosterSettings.lateHours}
              notice={safetyNotice}
              settle={settle}
            />
            <MySwings swings={mySwings} freed={freed} notice={safetyNotice} settle={settle} />
            <Section title="Places you may take" id="open">
              {groups.length ? (
                <>
                  <p>
                    {count(all.length - freed.length, 'place')} that your skills and cards allow, soonest
                    first, and of a day those that help most.
                  </p>
                  <ol className="places">
                    {shown.map((alike) => (
                      <li key={keyOf(alike)}>
                        <OpenPlace
                          alike={alike}
                          notice={safetyNotice}
                          asking={pending?.key === keyOf(alike)}
                          ask={(underWay) => {
                            setPending({ key: keyOf(alike), underWay });
                          }}
                          putAway={() => {
                            setPending(null);
                          }}
                          settle={settle}
                        />
                      </li>
                    ))}
                  </ol>
                  {shown.length < groups.length ? (
                    <button
                      type="button"
                      className="quiet"
                      onClick={() => {
                        setShowsAll(true);
                      }}
                    >
                      Show {sayNumber(groups.length - shown.length)} more, further off
                    </button>
                  ) : null}
                </>
              ) : (
                <Nothing>
                  <p>
                    No open place is yours to take just now. You will see new ones here as weeks are posted.
                  </p>
                  <p>
                    Say which <a href={to('days')}>days you can come</a>, so that the plan counts on you.
                  </p>
                </Nothing>
              )}
            </Section>
          </>
        )}
      </Asked>
    </Page>
  );
}

/** Stays the same while places of the group come and go. */
function keyOf([first]: Open[]): string {
  return first ? `${first.place.turnout.id} ${first.place.task.id} ${first.place.skill?.id ?? ''}` : '';
}
