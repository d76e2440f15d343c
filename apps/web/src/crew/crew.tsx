import { graphql } from '../gql/gql.js';
import type { CrewQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page } from '../parts/page.js';
import { capital, count, list } from '../words/amounts.js';
import { sayAttendance, sayException } from '../words/attendance.js';
import { LapsingPart } from './lapsing.js';
import { PurposesPart } from './purposes.js';
import './crew.css';

const CrewQuestion = graphql(`
  query Crew {
    volunteers(first: 200) {
      edges {
        node {
          id
          name
          kind
          skills {
            level
            levelWords
            skill {
              id
              name
            }
          }
          cards {
            countsToday
            kind {
              id
              name
            }
          }
          availability {
            rules {
              rule
              startsOn
              untilOn
              from
              to
            }
            exceptions {
              fromOn
              toOn
              canCome
              from
              to
            }
          }
        }
      }
    }
  }
`);

type Hand = CrewQuery['volunteers']['edges'][number]['node'];

/** Everybody of the crew: what they can do and when they can come. */
export function Crew() {
  const [answer, again] = useAsk(CrewQuestion, {}, 'plan');
  return (
    <Page title="The crew" lead={<p>Who can come, when, and what they can do.</p>}>
      <Asked answer={answer} what="the crew" again={again}>
        {({ volunteers }) =>
          volunteers.edges.length ? (
            <>
              <p>{count(volunteers.edges.length, 'person', 'people')}.</p>
              <ul className="crew">
                {volunteers.edges.map(({ node }) => (
                  <li key={node.id}>
                    <HandLine hand={node} />
                  </li>
                ))}
              </ul>
              <LapsingPart />
              <PurposesPart />
            </>
          ) : (
            <Nothing>
              <p>Nobody is in the crew yet. They come with the yard file.</p>
            </Nothing>
          )
        }
      </Asked>
    </Page>
  );
}

function HandLine({ hand }: { hand: Hand }) {
  const { rules, exceptions } = hand.availability;
  const skills = hand.skills.map((each) => `${each.skill.name} (${each.levelWords})`);
  const lapsed = hand.cards.filter((card) => !card.countsToday).map((card) => card.kind.name);
  return (
    <>
      <h2>
        <a href={to('crew', hand.id)}>{hand.name}</a>
      </h2>
      <p>{skills.length ? capital(list(skills)) : 'A hand'}.</p>
      <p className="pencil">
        {rules.length ? capital(list(rules.map(sayAttendance))) : 'Has not said when'}
        {exceptions.length ? `; ${exceptions.map(sayException).join('; ')}` : ''}.
      </p>
      {lapsed.length ? <p className="gap">Does not count today: {list(lapsed)}.</p> : null}
    </>
  );
}
