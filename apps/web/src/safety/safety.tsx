import { FiresToComeBackTo } from '../fire-watch/fire-watches.js';
import { useAsk } from '../live/ask.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Answer } from '../parts/answer.js';
import { Page, Section } from '../parts/page.js';
import { useOutcome } from '../hours/use-outcome.js';
import { sayDay } from '../words/dates.js';
import { ClosingList } from './closing-list.js';
import { IncidentLine } from './incident.js';
import { Report } from './report-incident.js';
import { Round } from './round.js';
import { SafetyQuestion, type ToDo } from './safety.question.js';
import '../hours/hours.css';

/** "Saturday 13 March: to be closed"; after a watch there is nothing to close but people to account for. */
function sayToDo({ turnout, items }: ToDo, today: string): string {
  const { on, startTime, endTime } = turnout;
  if (items.length === 0)
    return `${sayDay(on)}, watch from ${startTime} to ${endTime}: who is not known to have left`;
  return `${sayDay(on)}: ${on < today ? 'was never closed' : 'to be closed'}`;
}

/** What happened or nearly did, in three lines; and the round that ends each turnout. */
export function Safety() {
  const { me, today } = useYard();
  const runsTheYard = me.role === 'DIRECTOR' || me.role === 'COORDINATOR';
  const [answer, again] = useAsk(SafetyQuestion, {}, 'roster');
  const { outcome, words, settle } = useOutcome({});
  const changed = (said: string) => {
    settle({ kind: 'done', done: null }, said);
    again();
  };
  return (
    <Page
      title="Closing up, and what happened"
      lead={
        <p>A page of reminders: local law, the yard, the insurer and a competent person on site decide.</p>
      }
    >
      <Answer outcome={outcome} done={words} />
      <Section title="Something happened, or nearly did" id="report">
        <Report reported={changed} />
      </Section>
      <Asked answer={answer} what="the rounds" again={again}>
        {({ roundsToDo, incidents, closingList }) => (
          <>
            <FiresToComeBackTo />
            <Section title="The closing round" id="round">
              {roundsToDo.length ? (
                roundsToDo.map((todo) => (
                  <details key={todo.turnout.id} className="fold" open={todo.turnout.on === today}>
                    <summary>{sayToDo(todo, today)}</summary>
                    <Round todo={todo} closed={changed} />
                  </details>
                ))
              ) : (
                <p>
                  Every turnout that people came to has had its round, and nobody is missing after a watch.
                </p>
              )}
              {runsTheYard ? <ClosingList items={closingList} changed={changed} /> : null}
            </Section>
            <Section
              title={runsTheYard || me.role === 'SHIPWRIGHT' ? 'Reported' : 'What you reported'}
              id="incidents"
            >
              {incidents.length ? (
                <ul className="plain">
                  {incidents.map((incident) => (
                    <li key={incident.id}>
                      <IncidentLine incident={incident} mayAssign={runsTheYard} changed={changed} />
                    </li>
                  ))}
                </ul>
              ) : (
                <p>Nothing.</p>
              )}
            </Section>
          </>
        )}
      </Asked>
    </Page>
  );
}
