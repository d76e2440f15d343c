import { BindEyes } from '../hull/bind-eyes.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Cautions } from '../parts/cautions.js';
import { focusOn } from '../parts/focus.js';
import { Page, Section } from '../parts/page.js';
import { capital, sayMinutes } from '../words/amounts.js';
import { sayDay, saySpan } from '../words/dates.js';
import { sayCrew, sayPosition, sayEstimate, saySeat, stateWords } from '../words/tasks.js';
import { AtTray } from './at-tray.js';
import { EditTask } from './edit-task.js';
import { Links } from './links.js';
import { SaySo } from './say-so.js';
import { Tallies } from './tallies.js';
import { TallyForm } from './tally-form.js';
import { TaskQuestion, type Task } from './task.question.js';
import './work.css';

export function TaskPage({ id }: { id: string }) {
  const [answer, again] = useAsk(TaskQuestion, { id }, 'plan');
  const task = answer.data?.task;
  return (
    <Page
      title={task?.title ?? 'A piece of work'}
      lead={
        task ? (
          <p>
            {sayPosition(task.position)}. It is {stateWords[task.state]}.
          </p>
        ) : null
      }
    >
      <p>
        <a href={to('work')}>All the work</a>
      </p>
      <Asked answer={answer} what="the work" again={again}>
        {({ task: found }) =>
          found ? (
            <WholeTask task={found} again={again} />
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

function WholeTask({ task, again }: { task: Task; again: () => void }) {
  const { me } = useYard();
  const isShipwright = me.role === 'SHIPWRIGHT';
  // The form that was sent is made anew from the changed task; the focus goes to the part it stood in.
  const changed = (part: string) => () => {
    again();
    focusOn(part);
  };
  const over = task.state === 'PASSED' || task.state === 'DROPPED';
  return (
    <>
      <Cautions cautions={task.cautionLines} notice={task.safetyNotice} level="h2" />
      <Section title="When" id="when">
        <When task={task} />
      </Section>
      <Section title="How much, and by whom" id="how-much">
        <HowMuch task={task} />
        {isShipwright && !over ? (
          <EditTask key={task.version} task={task} edited={changed('#how-much')} />
        ) : null}
      </Section>
      <Section title="What it hangs on" id="links">
        <Links task={task} mayEdit={isShipwright} edited={changed('#links')} />
      </Section>
      <Section title="Tallies" id="tallies">
        <Tallies task={task} corrected={changed('#tallies')} />
        {task.tray && !over ? <AtTray tray={task.tray} /> : null}
        {isShipwright && !over && !task.tray ? <TallyForm task={task} ofSeveral entered={again} /> : null}
      </Section>
      {task.maySaySo && task.state !== 'DROPPED' ? (
        <Section title="The say-so" id="say-so">
          <SaySo task={task} said={changed('h1')} />
          {task.kind === 'HOLD' ? <BindEyes taskId={task.id} now={null} changed={again} /> : null}
        </Section>
      ) : null}
    </>
  );
}

function When({ task }: { task: Task }) {
  const { timeZone } = useYard();
  const { planned } = task;
  return (
    <>
      {task.held ? <p className="gap">Held: {task.held}</p> : null}
      {task.notBefore ? <p>Not before {sayDay(task.notBefore)}.</p> : null}
      {task.stockHold ? (
        <p className="gap">
          Waits for timber until {sayDay(task.stockHold.fromOn)}. {capital(task.stockHold.why)}.
        </p>
      ) : null}
      {planned ? (
        <>
          <p>
            Planned for <span className="pencil">{saySpan(planned.startsAt, planned.endsAt, timeZone)}</span>.
            It {planned.floatWords}.
          </p>
          <p>{planned.heldBy}</p>
        </>
      ) : (
        <p>It has no time in the plan.</p>
      )}
    </>
  );
}

function HowMuch({ task }: { task: Task }) {
  return (
    <ul className="plain">
      <li>{sayEstimate(task.estimate)}</li>
      <li>{capital(sayCrew(task.crewMin, task.crewEfficient, task.crewMax))}</li>
      {task.seats.map((seat) => (
        <li key={seat.id}>{saySeat(seat)}.</li>
      ))}
      {task.cards.map((card) => (
        <li key={card.id}>Everyone on it holds a card: {card.name}.</li>
      ))}
      {task.leastAge ? <li>Nobody under {task.leastAge}.</li> : null}
      {task.oneGo ? <li>In one go: once begun it is finished at the same turnout.</li> : null}
      {task.setUpMinutes ? <li>{capital(sayMinutes(task.setUpMinutes))} to set up at each return.</li> : null}
    </ul>
  );
}
