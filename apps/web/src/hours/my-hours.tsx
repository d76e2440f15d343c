import { useAsk } from '../live/ask.js';
import { useDeed } from '../live/deed.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Page, Section } from '../parts/page.js';
import { addDays, sayDay } from '../words/dates.js';
import { EntryLine } from './entry.js';
import { MyHoursQuestion, SignOffDeed, SignOnDeed, type Entry } from './hours.question.js';
import { sayHours, sayTimes, totalMinutes } from './hours-words.js';
import { useOutcome } from './use-outcome.js';
import './hours.css';

const shownDays = 120;

/** Sign on, sign off, and what I have given so far. */
export function MyHours() {
  const { me, today } = useYard();
  if (!me.volunteer) {
    return (
      <Page title="My hours">
        <Nothing>
          <p>Your account is not tied to anybody in the crew yet. The director does that under Accounts.</p>
        </Nothing>
      </Page>
    );
  }
  return <Mine volunteerId={me.volunteer.id} name={me.volunteer.name} today={today} />;
}

function Mine({ volunteerId, name, today }: { volunteerId: string; name: string; today: string }) {
  const asked = { from: addDays(today, -shownDays), to: today, volunteerId };
  const [answer, again] = useAsk(MyHoursQuestion, asked, 'roster');
  const { outcome, words, settle } = useOutcome({});
  const changed = (said: string) => {
    settle({ kind: 'done', done: null }, said);
    again();
  };
  return (
    <Page title="My hours" lead={<p>{name}</p>}>
      <Asked answer={answer} what="your hours" again={again}>
        {({ signedOn, hours, myPlaces }) => (
          <>
            <Section title={signedOn ? 'You are signed on' : 'Sign on'} id="sign-on">
              <Answer outcome={outcome} done={words} />
              {signedOn ? (
                <SignOff entry={signedOn} changed={changed} />
              ) : (
                <SignOn tasks={tasksOf(myPlaces, today)} changed={changed} />
              )}
            </Section>
            <Section title="What you gave" id="given">
              {hours.length ? (
                <>
                  <p>
                    <strong>{sayHours(totalMinutes(hours))}</strong> in the last four months.{' '}
                    <a href={to('my-hours', 'letter')}>A letter with your hours, to print</a>
                  </p>
                  <ul className="plain">
                    {hours.map((entry) => (
                      <li key={entry.id}>
                        <EntryLine entry={entry} named={false} mayAdjust={false} changed={changed} />
                      </li>
                    ))}
                  </ul>
                </>
              ) : (
                <p>Nothing is in the book yet.</p>
              )}
            </Section>
          </>
        )}
      </Asked>
    </Page>
  );
}

interface Place {
  turnout: { on: string };
  task: { id: string; title: string };
}

/** The work of my places of today, each once. */
function tasksOf(places: readonly Place[], today: string): Place['task'][] {
  const mine = places.filter((place) => place.turnout.on === today).map((place) => place.task);
  return mine.filter((task, index) => mine.findIndex((other) => other.id === task.id) === index);
}

function SignOn({ tasks, changed }: { tasks: Place['task'][]; changed: (words: string) => void }) {
  const { run, busy } = useDeed(SignOnDeed);
  const { today } = useYard();
  const fields = { taskId: 'sign-on-task', from: 'sign-on-from' };
  const { outcome, words, wrong, settle } = useOutcome(fields);

  async function send(filled: Filled) {
    const answer = await run({ taskId: filled.textOrNull('task'), from: filled.textOrNull('from') });
    if (settle(answer, 'You are signed on.')) changed('You are signed on. Sign off when you stop.');
  }

  return (
    <Form send={send}>
      <Answer outcome={outcome?.kind === 'done' ? null : outcome} done={words} fields={fields} />
      <Choice id="sign-on-task" name="task" label="To what" wrong={wrong('sign-on-task')}>
        {tasks.map((task) => (
          <option key={task.id} value={task.id}>
            {task.title}
          </option>
        ))}
        <option value="">Whatever there is to do, on no task</option>
      </Choice>
      <button type="submit" className="deed wide" disabled={busy}>
        Sign on
      </button>
      <details className="fold">
        <summary>I began earlier</summary>
        <Field
          id="sign-on-from"
          name="from"
          type="time"
          label="Since when"
          hint={`On ${sayDay(today)}.`}
          wrong={wrong('sign-on-from')}
        />
      </details>
    </Form>
  );
}

function SignOff({ entry, changed }: { entry: Entry; changed: (words: string) => void }) {
  const { run, busy } = useDeed(SignOffDeed);
  const { timeZone } = useYard();
  const fields = { to: 'sign-off-to' };
  const { outcome, words, wrong, settle } = useOutcome(fields);

  async function send(filled: Filled) {
    const answer = await run({ entryId: entry.id, to: filled.textOrNull('to') });
    if (settle(answer, 'You are signed off.'))
      changed(
        `You are signed off. ${entry.task ? 'If you can say what got done, enter a tally. ' : ''}Thank you.`,
      );
  }

  return (
    <Form send={send}>
      <Answer outcome={outcome?.kind === 'done' ? null : outcome} done={words} fields={fields} />
      <p>
        {entry.task?.title ?? 'Work on no task'}, <span className="pencil">{sayTimes(entry, timeZone)}</span>.
      </p>
      <button type="submit" className="deed wide" disabled={busy}>
        Sign off
      </button>
      {entry.task ? (
        <p>
          <a href={to('tally', entry.task.id)}>Enter a tally of what got done</a>
        </p>
      ) : null}
      <details className="fold">
        <summary>I stopped earlier</summary>
        <Field id="sign-off-to" name="to" type="time" label="When" wrong={wrong('sign-off-to')} />
      </details>
    </Form>
  );
}
