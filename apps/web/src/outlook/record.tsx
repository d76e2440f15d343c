import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Page, Section } from '../parts/page.js';
import { sayShortDay } from '../words/dates.js';
import { OddsQuestion, type Odds } from './odds.question.js';
import './outlook.css';

const RecordQuestion = graphql(`
  query PlanRecord {
    planRecord {
      sentence
      baselines {
        id
        name
        keptOn
        keptBy
        readyOn
      }
      measures {
        name
        value
        says
      }
      hints {
        sentence
        holds
        named
        tasks {
          id
          title
        }
      }
    }
  }
`);

const KeepBaselineDeed = graphql(`
  mutation KeepBaseline($name: String!) {
    keepBaseline(name: $name) {
      __typename
      ... on KeepBaselinePayload {
        baseline {
          id
        }
      }
      ...Refused
    }
  }
`);

const PinPaceDeed = graphql(`
  mutation PinPace($kind: ID!, $pace: Float, $reason: String!) {
    pinPace(kind: $kind, pace: $pace, reason: $reason) {
      __typename
      ... on PinPacePayload {
        kind
      }
      ...Refused
    }
  }
`);

/** How things went: baselines, what is earned, what the paces rest on, hints about the schedule. */
export function RecordPage() {
  const { today } = useYard();
  const [answer, again] = useAsk(RecordQuestion, {}, 'plan');
  const [told, askOdds] = useAsk(OddsQuestion, {}, 'plan');
  return (
    <Page title="The record" lead={<p>How things went against what was planned. Hints, not grades.</p>}>
      <Asked answer={answer} what="the record" again={again}>
        {({ planRecord }) => (
          <>
            <Section title="Against the baseline" id="baseline">
              <p>{planRecord.sentence}</p>
              <dl className="odds-words">
                {planRecord.measures.map(({ name, value, says }) => (
                  <div key={name}>
                    <dt>
                      {name}: {value === null ? 'nothing yet' : value.toLocaleString('en')}
                    </dt>
                    <dd>{says}</dd>
                  </div>
                ))}
              </dl>
              <ul>
                {planRecord.baselines.map((one) => (
                  <li key={one.id}>
                    “{one.name}”, kept on {sayShortDay(one.keptOn, today)} by {one.keptBy}: ready on{' '}
                    {sayShortDay(one.readyOn, today)}
                  </li>
                ))}
              </ul>
              <KeepBaseline kept={again} />
            </Section>
            <Section title="Hints about the schedule" id="hints">
              <p>
                The usual points that schedules are looked through for. They were made for paid crews; take
                them as questions.
              </p>
              <ul className="decisions">
                {planRecord.hints.map((hint) => (
                  <li key={hint.sentence}>
                    <strong>{hint.holds ? 'As is usual' : 'Look again'}</strong>
                    <span>{hint.sentence}</span>
                    {hint.holds || hint.tasks.length === 0 ? null : (
                      <details>
                        <summary>
                          {hint.named > hint.tasks.length
                            ? `The first ${hint.tasks.length} of ${hint.named}`
                            : 'Which'}
                        </summary>
                        <ul>
                          {hint.tasks.map((task) => (
                            <li key={task.id}>
                              <a href={to('work', task.id)}>{task.title}</a>
                            </li>
                          ))}
                        </ul>
                      </details>
                    )}
                  </li>
                ))}
              </ul>
            </Section>
          </>
        )}
      </Asked>
      <Asked answer={told} what="the paces" again={askOdds}>
        {({ outlook }) =>
          outlook?.paces.length ? (
            <Section title="What the paces rest on" id="paces">
              <ul className="decisions">
                {outlook.paces.map((pace) => (
                  <Pace key={pace.kind} pace={pace} />
                ))}
              </ul>
            </Section>
          ) : null
        }
      </Asked>
    </Page>
  );
}

function KeepBaseline({ kept }: { kept: () => void }) {
  const { me } = useYard();
  const { run, busy } = useDeed(KeepBaselineDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  if (me.role === 'COORDINATOR') return null;
  async function submit(filled: Filled) {
    const answer = await run({ name: filled.text('name') });
    setOutcome(answer);
    if (answer.kind === 'done') kept();
  }
  return (
    <Form send={submit}>
      <Answer
        outcome={outcome}
        done="The plan in force is kept as a baseline."
        fields={{ name: 'baseline-name' }}
      />
      <Field id="baseline-name" name="name" label="Keep the plan in force as" maxLength={120} />
      <button type="submit" className="quiet" disabled={busy}>
        Keep it
      </button>
    </Form>
  );
}

function Pace({ pace }: { pace: Odds['paces'][number] }) {
  const { me } = useYard();
  const { run, busy } = useDeed(PinPaceDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const id = (name: string) => `${name}-${pace.kind.replaceAll(/[^a-z0-9]+/gi, '-')}`;
  async function submit(filled: Filled) {
    const figure = filled.text('pace');
    setOutcome(
      await run({ kind: pace.kind, pace: figure ? Number(figure) : null, reason: filled.text('reason') }),
    );
  }
  return (
    <li>
      <span>{pace.sentence}</span>
      {pace.pinnedWhy ? <span className="pencil">Set by hand: {pace.pinnedWhy}</span> : null}
      {me.role === 'SHIPWRIGHT' ? (
        <details>
          <summary>Set it by hand</summary>
          <Form send={submit}>
            <Answer
              outcome={outcome}
              done="Written down. The odds are reckoned again."
              fields={{ pace: id('pace'), reason: id('why') }}
            />
            <Field
              id={id('pace')}
              name="pace"
              inputMode="decimal"
              label={`${pace.name} a person-hour`}
              hint="Left empty, it is learned from the tallies again."
            />
            <Field id={id('why')} name="reason" label="Why" maxLength={500} />
            <button type="submit" className="quiet" disabled={busy}>
              Set this pace
            </button>
          </Form>
        </details>
      ) : null}
    </li>
  );
}
