import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { sayDay } from '../words/dates.js';
import { NoOdds } from './letter.js';
import { OddsBoard } from './odds-board.js';
import { DecisionsSection } from './odds-parts.js';
import { OddsQuestion } from './odds.question.js';
import './outlook.css';

const BoardReportQuestion = graphql(`
  query BoardReport {
    plan {
      id
      sentence
      launchChain {
        task {
          id
          title
          position
        }
        daysToSpare
      }
    }
    planRecord {
      sentence
      baselines {
        id
        name
        readyOn
      }
    }
  }
`);

/** The board's report: one page to print. */
export function BoardReport() {
  const { me, haulOut, today } = useYard();
  const [told, askOdds] = useAsk(OddsQuestion, {}, 'plan');
  const [answer, again] = useAsk(BoardReportQuestion, {}, 'plan');
  return (
    <Page
      title="Report to the board"
      heading={`${haulOut?.vessel.name ?? me.organisation.name}: report to the board, ${sayDay(today)}`}
    >
      <button
        type="button"
        className="deed no-print"
        onClick={() => {
          window.print();
        }}
      >
        Print
      </button>
      <Asked answer={told} what="the odds" again={askOdds}>
        {({ outlook }) =>
          outlook ? (
            <>
              <Section title="Will she float on the day?" id="report-odds">
                <p>
                  <strong>{outlook.sentence}</strong>
                </p>
                <p>{outlook.trend.sentence}</p>
                <OddsBoard odds={outlook} />
              </Section>
              <DecisionsSection odds={outlook} />
              <Section title="What would help most" id="report-help">
                <ol>
                  {outlook.nextHand.slice(0, 3).map(({ what, gains }) => (
                    <li key={what}>
                      {what}: {gains}.
                    </li>
                  ))}
                </ol>
              </Section>
            </>
          ) : (
            <NoOdds />
          )
        }
      </Asked>
      <Asked answer={answer} what="the plan" again={again}>
        {({ plan, planRecord }) => (
          <Section title="Where the work stands" id="report-work">
            {plan ? <p>{plan.sentence}</p> : null}
            <p>{planRecord.sentence}</p>
            {plan?.launchChain.length ? (
              <>
                <p>The next pieces of work that decide the day:</p>
                <ul>
                  {plan.launchChain.slice(0, 5).map(({ task }) => (
                    <li key={task.id}>
                      {task.title}
                      {task.position ? `, ${task.position}` : ''}
                    </li>
                  ))}
                </ul>
              </>
            ) : null}
          </Section>
        )}
      </Asked>
    </Page>
  );
}
