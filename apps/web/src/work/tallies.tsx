import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { controlFor } from '../parts/control-for.js';
import { Field, Tick } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { sayMinutes } from '../words/amounts.js';
import { dayOf, sayShortDay } from '../words/dates.js';
import type { TaskQuery } from '../gql/graphql.js';

const CorrectTallyDeed = graphql(`
  mutation CorrectTally($tallyId: ID!, $count: Int, $minutes: Int!, $finished: Boolean, $reason: String!) {
    correctTally(tallyId: $tallyId, count: $count, minutes: $minutes, finished: $finished, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

type Task = NonNullable<TaskQuery['task']>;
type Tally = Task['tallies'][number];
export type Recorded = Pick<Task, 'tallies' | 'saySos' | 'estimate'>;

/** What has been entered for a task and what was said to it, newest first; what was wrong is put right here. */
export function Tallies({ task, corrected }: { task: Recorded; corrected: () => void }) {
  const { me, today } = useYard();
  const counts = task.tallies.filter((tally) => !tally.correctedById);
  if (!counts.length && !task.saySos.length) return <p>Nothing has been entered yet.</p>;
  const unit = task.estimate?.__typename === 'CountEstimate' ? task.estimate.unit : '';
  const byId = new Map(task.tallies.map((tally) => [tally.id, tally]));
  const said = (tally: Tally) =>
    `${tally.count === null ? '' : `${tally.count} ${unit} in `}${sayMinutes(tally.minutes)}`;
  const mayCorrect = (tally: Tally) =>
    me.role !== 'VOLUNTEER' || (me.volunteer ? tally.hand?.volunteerId === me.volunteer.id : false);
  return (
    <ul className="tallies">
      <SaySos task={task} />
      {counts.map((tally) => {
        const before = tally.correctsId ? byId.get(tally.correctsId) : undefined;
        return (
          <li key={tally.id}>
            <span className="pencil">{sayShortDay(tally.on, today)}</span>{' '}
            {tally.hand?.name ?? 'Several hands'}: {said(tally)}
            {tally.finished ? ', finished' : ''}. {tally.note ?? ''}
            {tally.reason ? (
              <span className="pencil">
                {' '}
                Put right{tally.enteredBy ? ` by ${tally.enteredBy}` : ''}: {tally.reason}.
                {before ? ` Before: ${said(before)}.` : ''}
              </span>
            ) : null}
            {mayCorrect(tally) ? (
              <details className="fold">
                <summary>This is wrong</summary>
                <Correct tally={tally} unit={unit} corrected={corrected} />
              </details>
            ) : null}
          </li>
        );
      })}
    </ul>
  );
}

function Correct({ tally, unit, corrected }: { tally: Tally; unit: string; corrected: () => void }) {
  const { run, busy } = useDeed(CorrectTallyDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const id = (name: string) => `${tally.id}-${name}`;
  const fields = { count: id('count'), minutes: id('hours'), reason: id('reason') };
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;
  const wrongAt = controlFor(refusal?.field, fields);
  const wrong = (control: string) => (wrongAt === control ? refusal?.message : null);

  async function send(filled: Filled) {
    const answer = await run({
      tallyId: tally.id,
      count: typeof tally.count === 'number' ? filled.number('count') : null,
      minutes: Math.round(filled.number('hours') * 60),
      finished: filled.ticked('finished'),
      reason: filled.text('reason'),
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('The tally is put right. What it said before stays on record.');
    corrected();
  }

  return (
    <Form send={send}>
      <Answer outcome={outcome} done="The tally is put right." fields={fields} />
      {typeof tally.count === 'number' ? (
        <Field
          id={id('count')}
          name="count"
          type="number"
          inputMode="numeric"
          min={0}
          step={1}
          defaultValue={tally.count}
          label={`How many ${unit} it should be`}
          wrong={wrong(id('count'))}
        />
      ) : null}
      <Field
        id={id('hours')}
        name="hours"
        type="number"
        inputMode="decimal"
        min={0}
        step={0.25}
        defaultValue={tally.minutes / 60}
        label="Hours it should be"
        wrong={wrong(id('hours'))}
      />
      <Tick
        id={id('finished')}
        name="finished"
        label="The work is finished with it"
        defaultChecked={tally.finished}
      />
      <Field id={id('reason')} name="reason" label="Why it was wrong" wrong={wrong(id('reason'))} />
      <button type="submit" className="deed" disabled={busy}>
        Put it right
      </button>
    </Form>
  );
}

function SaySos({ task }: { task: Recorded }) {
  const { today, timeZone } = useYard();
  return task.saySos.map((said) => (
    <li key={said.id}>
      <span className="pencil">{sayShortDay(dayOf(said.yardAt, timeZone), today)}</span> {said.saidBy}{' '}
      <strong>{said.verdict === 'PASSED' ? 'passed it' : 'sent it back'}</strong>
      {said.countBack ? `, ${said.countBack} to do again` : ''}
      {said.minutesBack ? `, ${sayMinutes(said.minutesBack)} to do again` : ''}. {said.note ?? ''}
    </li>
  ));
}
