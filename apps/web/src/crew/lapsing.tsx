import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { LapsingCardsQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Choice } from '../parts/field.js';
import { Section } from '../parts/page.js';
import { count, list } from '../words/amounts.js';
import { sayShortDay } from '../words/dates.js';
import { sayWhoIsLeft } from './lapsing-words.js';

const LapsingQuestion = graphql(`
  query LapsingCards($withinDays: Int!) {
    lapsingCards(withinDays: $withinDays) {
      expiresOn
      hasLapsed
      workCount
      hand {
        volunteerId
        name
      }
      kind {
        id
        name
        purpose
      }
      places {
        isOnly
        othersLapsed
        turnout {
          id
          on
        }
        task {
          id
          title
        }
      }
      work {
        task {
          id
          title
        }
      }
    }
  }
`);

type Lapsing = LapsingCardsQuery['lapsingCards'][number];

/** Whose card lapses when, and which places and planned work need it after that. */
export function LapsingPart() {
  const [days, setDays] = useState(60);
  const [answer, again] = useAsk(LapsingQuestion, { withinDays: days }, 'either');
  return (
    <Section title="Cards that lapse" id="lapsing">
      <Choice
        id="lapsing-days"
        label="Within"
        value={days}
        onChange={(event) => {
          setDays(Number(event.target.value));
        }}
      >
        {[30, 60, 120, 365].map((each) => (
          <option key={each} value={each}>
            {each} days
          </option>
        ))}
      </Choice>
      <Asked answer={answer} what="the cards" again={again}>
        {({ lapsingCards }) =>
          lapsingCards.length ? (
            <ol className="plain">
              {lapsingCards.map((card) => (
                <li key={`${card.hand.volunteerId} ${card.kind.id}`}>
                  <Line card={card} />
                </li>
              ))}
            </ol>
          ) : (
            <p>No card on record lapses within {days} days, and none has lapsed.</p>
          )
        }
      </Asked>
    </Section>
  );
}

function Line({ card }: { card: Lapsing }) {
  const { today } = useYard();
  const { hand, kind, places, work, workCount } = card;
  const lacks = sayWhoIsLeft(
    kind.purpose,
    places.map((one) => ({ ...one, on: sayShortDay(one.turnout.on, today) })),
  );
  const more = workCount - work.length;
  return (
    <>
      <p className={card.hasLapsed || places.length ? 'gap' : undefined}>
        <a href={to('crew', hand.volunteerId)}>{hand.name}</a>: {kind.name},{' '}
        {card.hasLapsed ? 'lapsed after' : 'counts until'} {sayShortDay(card.expiresOn, today)}.
      </p>
      {places.length ? (
        <p>
          Has {count(places.length, 'place', 'places')} after it where it counts:{' '}
          {list(places.map(({ turnout, task }) => `${task.title} on ${sayShortDay(turnout.on, today)}`))}.
        </p>
      ) : null}
      {lacks.map((words) => (
        <p key={words} className="gap">
          {words}
        </p>
      ))}
      {workCount ? (
        <p className="pencil">
          Planned work after it that they could do with it: {list(work.map(({ task }) => task.title))}
          {more > 0 ? `, and ${more} more` : ''}.
        </p>
      ) : null}
    </>
  );
}
