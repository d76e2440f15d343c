import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { sayShortDay } from '../words/dates.js';
import { sayPosition } from '../words/tasks.js';
import { SaySo } from '../work/say-so.js';
import { DelegationsPart } from './delegations.js';
import { inWalkingOrder } from './walking-order.js';
import '../hours/hours.css';

const WalkQuestion = graphql(`
  query Walk {
    witnessMarks {
      mark {
        id
        name
        frame
      }
      says
      dueOn
      held
    }
    tasks(first: 40, state: SHOWN) {
      edges {
        node {
          id
          title
          position
          state
          kind
          maySaySo
          estimate {
            ...EstimateWords
          }
          tallies {
            id
            count
            minutes
            note
            correctedById
          }
        }
      }
    }
  }
`);

/** The round of the vessel in one pass: readings due, then work shown, in the order in which one walks past it. */
export function Walk() {
  const { today } = useYard();
  const [answer, again] = useAsk(WalkQuestion, {}, 'plan');
  return (
    <Page
      title="Walk-round"
      lead={
        <p>
          Down the starboard side from the stem, up the port side from the stern, then inboard and ashore.
        </p>
      }
    >
      <div className="no-print">
        <button
          type="button"
          className="quiet"
          onClick={() => {
            window.print();
          }}
        >
          Print the sheet
        </button>
      </div>
      <Asked answer={answer} what="the walk" again={again}>
        {({ witnessMarks, tasks }) => {
          const due = witnessMarks.filter((one) => one.dueOn || one.held);
          const shown = inWalkingOrder(tasks.edges.map(({ node }) => node));
          return (
            <>
              <Section title="Marks to be read" id="marks-due">
                {due.length ? (
                  <>
                    <ul className="plain">
                      {due.map((one) => (
                        <li key={one.mark.id} className={one.held ? 'gap' : ''}>
                          {one.mark.name}
                          {one.dueOn ? `, due since ${sayShortDay(one.dueOn, today)}` : ''}
                          {one.held ? `. ${one.held}` : ''}
                        </li>
                      ))}
                    </ul>
                    <p>
                      <a href={to('hull')}>Enter the readings</a>, and see what stands open
                    </p>
                  </>
                ) : (
                  <p>
                    None is due. <a href={to('hull')}>What stands open</a>
                  </p>
                )}
              </Section>
              <Section title="Shown to you" id="shown">
                {shown.length ? (
                  <ol className="plain">
                    {shown.map((task) => (
                      <li key={task.id}>
                        <h3>
                          <a href={to('work', task.id)}>{task.title}</a>
                        </h3>
                        <p className="pencil">
                          {sayPosition(task.position)}.{' '}
                          {task.tallies
                            .filter((tally) => !tally.correctedById && tally.note)
                            .map((tally) => tally.note)
                            .join(' ')}
                        </p>
                        <details className="fold">
                          <summary>Pass it or send it back</summary>
                          <SaySo task={task} said={again} of={`-${task.id}`} />
                        </details>
                      </li>
                    ))}
                  </ol>
                ) : (
                  <p>Nothing is shown just now.</p>
                )}
              </Section>
              <Section title="Who may say so for you" id="delegations">
                <DelegationsPart />
              </Section>
            </>
          );
        }}
      </Asked>
    </Page>
  );
}
