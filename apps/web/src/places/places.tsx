import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { PlacesQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { count } from '../words/amounts.js';
import { gatherAlike } from './alike.js';
import { sayPosition } from '../words/tasks.js';
import { MyPlace } from './my-place.js';
import { OpenPlace } from './open-place.js';
import './places.css';

const PlacesQuestion = graphql(`
  query Places {
    myPlaces {
      ...MyPlace
    }
    openPlaces {
      alongside {
        volunteerId
        name
      }
      cautions {
        words
      }
      place {
        ...MyPlace
      }
    }
    safetyNotice
  }
  fragment MyPlace on Place {
    id
    state
    startsAt
    endsAt
    why
    skill {
      id
      name
    }
    turnout {
      id
      on
      startTime
      endTime
    }
    task {
      id
      title
      position
      cautions
    }
  }
`);

export type Mine = PlacesQuery['myPlaces'][number];
export type Open = PlacesQuery['openPlaces'][number];

export function Places() {
  const { me, today } = useYard();
  const [answer, again] = useAsk(PlacesQuestion, {}, 'either');
  const [settled, setSettled] = useState<string | null>(null);
  function settle(words: string) {
    setSettled(words);
    again();
    document.querySelector<HTMLElement>('#settled')?.focus();
  }
  return (
    <Page title="My places" lead={<p>{me.account.name}</p>}>
      <p id="settled" tabIndex={-1} role="status" className={settled ? 'answer answer-yes' : ''}>
        {settled}
      </p>
      <Asked answer={answer} what="your places" again={again}>
        {({ myPlaces, openPlaces, safetyNotice }) => {
          const asked = myPlaces.filter((place) => place.state === 'POSTED' && place.turnout.on >= today);
          const coming = myPlaces.filter((place) => place.state === 'TAKEN' && place.turnout.on >= today);
          const past = myPlaces.filter((place) => place.state === 'TAKEN' && place.turnout.on < today);
          return (
            <>
              {asked.length ? (
                <Section title="You are asked" id="asked">
                  <p>The week’s roster has you here. Say whether you come.</p>
                  <ol className="places">
                    {asked.map((place) => (
                      <li key={place.id}>
                        <MyPlace place={place} notice={safetyNotice} settle={settle} changed={again} />
                      </li>
                    ))}
                  </ol>
                </Section>
              ) : null}
              <Section title="Where I am expected" id="mine">
                {coming.length ? (
                  <ol className="places">
                    {coming.map((place) => (
                      <li key={place.id}>
                        <MyPlace place={place} notice={safetyNotice} settle={settle} changed={again} />
                      </li>
                    ))}
                  </ol>
                ) : (
                  <Nothing>
                    <p>
                      You have said yes to no place yet. Take one below, or wait for the coordinator to post
                      the week.
                    </p>
                  </Nothing>
                )}
              </Section>
              <Section title="Places you may take" id="open">
                {openPlaces.length ? (
                  <>
                    <p>
                      {count(openPlaces.length, 'place')} that your skills and cards allow, soonest first.
                    </p>
                    <ol className="places">
                      {gatherAlike(openPlaces).map((alike) => (
                        <li key={keyOf(alike)}>
                          <OpenPlace alike={alike} notice={safetyNotice} settle={settle} gone={again} />
                        </li>
                      ))}
                    </ol>
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
              {past.length ? <Past places={past} /> : null}
            </>
          );
        }}
      </Asked>
    </Page>
  );
}

/** Stays the same while places of the group come and go, so that an answer stays where it was given. */
function keyOf([first]: Open[]): string {
  return first ? `${first.place.turnout.id} ${first.place.task.id} ${first.place.skill?.id ?? ''}` : '';
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
