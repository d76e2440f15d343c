import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Cautions } from '../parts/cautions.js';
import { Page, Section } from '../parts/page.js';
import { sayEstimate, sayPosition, stateWords } from '../words/tasks.js';
import { AtTray } from '../work/at-tray.js';
import { SaySo } from '../work/say-so.js';
import { Tallies } from '../work/tallies.js';
import { TallyForm } from '../work/tally-form.js';

const TallyQuestion = graphql(`
  query TallyTask($id: ID!) {
    task(id: $id) {
      id
      title
      position
      state
      cautionLines {
        words
        basis
      }
      safetyNotice
      maySaySo
      kind
      ...TaskRecord
      tray {
        id
        name
      }
      estimate {
        ...EstimateWords
      }
    }
  }
`);

/** Where a volunteer enters what was done on a task that they have a place on. */
export function TallyPage({ taskId }: { taskId: string }) {
  const [answer, again] = useAsk(TallyQuestion, { id: taskId });
  const task = answer.data?.task;
  return (
    <Page
      title="Enter a tally"
      lead={
        task ? (
          <p>
            {task.title}, {sayPosition(task.position)}
          </p>
        ) : null
      }
    >
      <p>
        <a href={to('places')}>Back to my places</a>
      </p>
      <Asked answer={answer} what="the work" again={again}>
        {({ task: found }) =>
          found ? (
            <>
              <p>
                {sayEstimate(found.estimate)} It is {stateWords[found.state]}.
              </p>
              <Section title="What was done" id="tally">
                {found.tray ? (
                  <AtTray tray={found.tray} />
                ) : (
                  <TallyForm task={found} ofSeveral={false} entered={again} />
                )}
              </Section>
              <Section title="Entered so far" id="entered">
                <Tallies task={found} corrected={again} />
              </Section>
              {found.maySaySo ? (
                <Section title="The say-so" id="say-so">
                  <SaySo task={found} said={again} />
                </Section>
              ) : null}
              <Cautions cautions={found.cautionLines} notice={found.safetyNotice} level="h2" />
            </>
          ) : (
            <Nothing>
              <p>There is no such piece of work any more.</p>
            </Nothing>
          )
        }
      </Asked>
    </Page>
  );
}
