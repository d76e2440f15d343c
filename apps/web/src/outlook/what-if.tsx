import { useEffect, useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { SupposedKind, WhatIfsQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Page, Section } from '../parts/page.js';
import { addDays, sayDay } from '../words/dates.js';
import './outlook.css';

const WhatIfsQuestion = graphql(`
  query WhatIfs {
    whatIfs {
      id
      name
      askedBy
      isWaiting
      message
      sentence
      now {
        ...Look
      }
      then {
        ...Look
      }
    }
    skills {
      id
      name
    }
    tasks(first: 100) {
      nodes {
        id
        title
        position
      }
    }
  }
  fragment Look on LookModel {
    readyOn
    evenOn
    likelyOn
    oddsWords
  }
`);

const AskWhatIfDeed = graphql(`
  mutation AskWhatIf($name: String!, $changes: [SupposedInput!]!) {
    askWhatIf(name: $name, changes: $changes) {
      __typename
      ... on WhatIfPayload {
        whatIf {
          id
        }
      }
      ...Refused
    }
  }
`);

const ForgetWhatIfDeed = graphql(`
  mutation ForgetWhatIf($id: ID!) {
    forgetWhatIf(id: $id) {
      __typename
      ... on ForgetWhatIfPayload {
        id
      }
      ...Refused
    }
  }
`);

type Answered = WhatIfsQuery;
type Kept = Answered['whatIfs'][number];

/** How often an answer that is still being reckoned is asked for. */
const everyMillis = 2_000;

/** Try a change: both outlooks side by side. The plan in force goes on as it is. */
export function WhatIfPage() {
  const [answer, again] = useAsk(WhatIfsQuestion, {}, 'plan');
  const waits = answer.data?.whatIfs.some(({ isWaiting }) => isWaiting) ?? false;
  useEffect(() => {
    if (!waits) return undefined;
    const timer = setInterval(again, everyMillis);
    return () => {
      clearInterval(timer);
    };
  }, [waits, again]);
  return (
    <Page
      title="What if"
      lead={<p>Try a change on a copy. The plan that the yard goes by stays as it is.</p>}
    >
      <Asked answer={answer} what="what was thought of" again={again}>
        {(data) => (
          <>
            <Section title="Try a change" id="try">
              <Try data={data} asked={again} />
            </Section>
            <Section title="What was tried" id="tried">
              {data.whatIfs.length ? (
                data.whatIfs.map((one) => <Tried key={one.id} one={one} gone={again} />)
              ) : (
                <Nothing>
                  <p>Nothing yet.</p>
                </Nothing>
              )}
            </Section>
          </>
        )}
      </Asked>
    </Page>
  );
}

const weekdays = ['Mondays', 'Tuesdays', 'Wednesdays', 'Thursdays', 'Fridays', 'Saturdays', 'Sundays'];

function Try({ data, asked }: { data: Answered; asked: () => void }) {
  const { today, haulOut } = useYard();
  const { run, busy } = useDeed(AskWhatIfDeed);
  const [kind, setKind] = useState<SupposedKind>('RECRUIT');
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const needsTask = kind === 'DROP' || kind === 'LATE';
  async function submit(filled: Filled) {
    const change = needsTask
      ? {
          kind,
          taskIds: [filled.text('task')].filter(Boolean),
          ...(kind === 'LATE' ? { days: filled.number('days') } : {}),
        }
      : {
          kind,
          weekdays: [filled.number('weekday')],
          fromOn: filled.textOrNull('from'),
          untilOn: filled.textOrNull('until'),
          ...(kind === 'RECRUIT' ? { skillId: filled.text('skill'), level: filled.number('level') } : {}),
        };
    const answer = await run({ name: filled.text('name'), changes: [change] });
    setOutcome(answer);
    if (answer.kind === 'done') asked();
  }
  return (
    <Form send={submit}>
      <Answer
        outcome={outcome}
        done="It is being reckoned; the answer appears below within a minute."
        fields={{
          name: 'if-name',
          taskIds: 'if-task',
          days: 'if-days',
          untilOn: 'if-until',
          skillId: 'if-skill',
        }}
      />
      <Choice
        id="if-kind"
        name="kind"
        label="What would be different"
        value={kind}
        onChange={(event) => {
          setKind(event.target.value as SupposedKind);
        }}
      >
        <option value="RECRUIT">One more person, asked or hired</option>
        <option value="TURNOUTS">A further turnout each week</option>
        <option value="DROP">Work left out</option>
        <option value="LATE">What work waits for comes late</option>
      </Choice>
      {needsTask ? (
        <Choice id="if-task" name="task" label="Which work">
          {data.tasks.nodes.map((task) => (
            <option key={task.id} value={task.id}>
              {task.title}
              {task.position ? `, ${task.position}` : ''}
            </option>
          ))}
        </Choice>
      ) : (
        <>
          <Choice id="if-weekday" name="weekday" label="On" defaultValue={6}>
            {weekdays.map((name, index) => (
              <option key={name} value={index + 1}>
                {name}
              </option>
            ))}
          </Choice>
          <div className="side-by-side">
            <Field id="if-from" name="from" type="date" label="From" defaultValue={today} />
            <Field
              id="if-until"
              name="until"
              type="date"
              label="Until"
              defaultValue={haulOut?.gate.on ?? addDays(today, 90)}
            />
          </div>
        </>
      )}
      {kind === 'LATE' ? (
        <Field id="if-days" name="days" type="number" min={1} label="Days late" defaultValue={28} />
      ) : null}
      {kind === 'RECRUIT' ? (
        <div className="side-by-side">
          <Choice id="if-skill" name="skill" label="Who can do">
            {data.skills.map((skill) => (
              <option key={skill.id} value={skill.id}>
                {skill.name}
              </option>
            ))}
          </Choice>
          <Choice id="if-level" name="level" label="So well" defaultValue={2}>
            <option value={1}>learning</option>
            <option value={2}>works alone</option>
            <option value={3}>teaches</option>
            <option value={4}>may say so</option>
          </Choice>
        </div>
      ) : null}
      <Field id="if-name" name="name" label="Call it" maxLength={120} hint="A few words to find it by." />
      <button type="submit" className="deed" disabled={busy}>
        Reckon it
      </button>
    </Form>
  );
}

function Tried({ one, gone }: { one: Kept; gone: () => void }) {
  const { run, busy } = useDeed(ForgetWhatIfDeed);
  const day = (on: string | null | undefined) => (on ? sayDay(on) : 'no day that is known');
  return (
    <article aria-labelledby={one.id}>
      <h3 id={one.id}>{one.name}</h3>
      {one.isWaiting ? <p role="status">Being reckoned…</p> : null}
      {one.message ? <p className="gap">{one.message}</p> : null}
      {one.sentence ? <p>{one.sentence}</p> : null}
      {one.now && one.then ? (
        <div className="wide">
          <table className="looks">
            <thead>
              <tr>
                <td />
                <th scope="col">As it is</th>
                <th scope="col">As it would be</th>
              </tr>
            </thead>
            <tbody>
              <tr>
                <th scope="row">Odds of the gate</th>
                <td>{one.now.oddsWords}</td>
                <td>{one.then.oddsWords}</td>
              </tr>
              <tr>
                <th scope="row">Ready if everyone comes</th>
                <td>{day(one.now.readyOn)}</td>
                <td>{day(one.then.readyOn)}</td>
              </tr>
              <tr>
                <th scope="row">As likely as not by</th>
                <td>{day(one.now.evenOn)}</td>
                <td>{day(one.then.evenOn)}</td>
              </tr>
              <tr>
                <th scope="row">8 in 10 by</th>
                <td>{day(one.now.likelyOn)}</td>
                <td>{day(one.then.likelyOn)}</td>
              </tr>
            </tbody>
          </table>
        </div>
      ) : null}
      <p>
        <span className="pencil">Asked by {one.askedBy}. </span>
        <button
          type="button"
          className="quiet"
          disabled={busy}
          onClick={() => {
            void run({ id: one.id }).then(gone);
          }}
        >
          Throw it away
        </button>
      </p>
    </article>
  );
}
