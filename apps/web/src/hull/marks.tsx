import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Choice, Field, Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Section } from '../parts/page.js';
import { capital, count } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';
import { readFine, unitName } from '../words/lengths.js';
import { AddMark } from './add-mark.js';
import { type Mark, MarksQuestion } from './marks.question.js';
import { Readings } from './readings.js';
import { Trend } from './trend.js';

const ReadDeed = graphql(`
  mutation EnterReadings($markId: ID!, $readings: [ReadingInput!]!, $reason: String) {
    enterReadings(markId: $markId, readings: $readings, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

const LiftDeed = graphql(`
  mutation LiftShapeHold($markId: ID!, $reason: String!) {
    liftShapeHold(markId: $markId, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

/** Whether she keeps her shape: marks with what they say, readings due, holds. */
export function Marks() {
  const { me } = useYard();
  const [answer, again] = useAsk(MarksQuestion, {}, 'plan');
  return (
    <Section title="Witness marks" id="marks">
      <Asked answer={answer} what="the marks" again={again}>
        {({ witnessMarks }) => {
          const due = witnessMarks.filter((mark) => mark.dueOn);
          const add = me.role === 'SHIPWRIGHT' ? <AddMark changed={again} /> : null;
          return witnessMarks.length ? (
            <>
              <p>
                {due.length
                  ? `${count(due.length, 'mark is', 'marks are')} due to be read: two readers, each twice.`
                  : 'No reading is due.'}
              </p>
              <ul className="hull-list">
                {witnessMarks.map((mark) => (
                  <OneMark key={mark.mark.id} mark={mark} changed={again} />
                ))}
              </ul>
              {add}
            </>
          ) : (
            <>
              <p>No mark is kept yet. Her shape is measured before anything is opened.</p>
              {add}
            </>
          );
        }}
      </Asked>
    </Section>
  );
}

function OneMark({ mark, changed }: { mark: Mark; changed: () => void }) {
  const { me } = useYard();
  const words = mark.held ?? mark.says;
  return (
    <li>
      <h3>{mark.mark.name}</h3>
      <p className={mark.held || mark.drift === 'WARN' ? 'gap' : undefined}>
        {mark.held ? 'Held: ' : ''}
        {capital(words)}.
      </p>
      {mark.dueOn ? (
        <p>
          Due since {sayDay(mark.dueOn)}
          {mark.due === 'AFTER_BLOCKING'
            ? ': the reading after blocking, from which all else is measured'
            : ''}
          .
        </p>
      ) : null}
      <Trend mark={mark} />
      {mark.lifted.map((lift) => (
        <p key={lift.liftedAt} className="pencil">
          Hold lifted by {lift.by}: {lift.reason}
        </p>
      ))}
      <Readings mark={mark} changed={changed} />
      {me.role === 'VOLUNTEER' ? null : <ReadIt mark={mark} changed={changed} />}
      {mark.held && me.role === 'SHIPWRIGHT' ? <LiftIt markId={mark.mark.id} changed={changed} /> : null}
    </li>
  );
}

function ReadIt({ mark, changed }: { mark: Mark; changed: () => void }) {
  const { me, today } = useYard();
  const { units } = me.organisation;
  const { run, busy } = useDeed(ReadDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const id = mark.mark.id;
  const hasBaseline = mark.drift !== 'NO_BASELINE';
  const wasRead = mark.held !== null || mark.readings.some((one) => one.time === 'LATER' && !one.struckBy);
  async function send(filled: Filled) {
    const time = filled.text('time') as 'AFLOAT' | 'AFTER_BLOCKING' | 'LATER';
    const on = filled.text('on');
    const rows = [1, 2].flatMap((reader) => {
      const name = filled.text(`reader-${reader}`);
      return ['first', 'again'].flatMap((turn) => {
        const text = filled.text(`${turn}-${reader}`);
        return text ? [{ on, time, reader: name, millimetres: readFine(text, units) }] : [];
      });
    });
    const bad = rows.some((row) => Number.isNaN(row.millimetres));
    if (bad || rows.length === 0) {
      setOutcome({
        kind: 'fault',
        words: `Write ${units === 'METRIC' ? 'millimetres, such as 5029.5' : 'inches and fractions, such as 198 3/16'}. Nothing was changed.`,
      });
      return;
    }
    const answer = await run({ markId: id, readings: rows, reason: filled.textOrNull('reason') });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('The readings are written down.');
    changed();
  }
  return (
    <details>
      <summary>Write down what was read</summary>
      <Answer outcome={outcome} done="The readings are written down." fields={{ reason: `why-${id}` }} />
      <Form send={send}>
        <div className="row">
          <Field id={`on-${id}`} name="on" type="date" label="Read on" defaultValue={today} />
          <Choice
            id={`time-${id}`}
            name="time"
            label="When"
            defaultValue={hasBaseline ? 'LATER' : 'AFTER_BLOCKING'}
          >
            <option value="AFLOAT">afloat</option>
            <option value="AFTER_BLOCKING">after blocking: the baseline</option>
            <option value="LATER">later</option>
          </Choice>
        </div>
        {[1, 2].map((reader) => (
          <div className="row" key={reader}>
            <Field
              id={`reader-${reader}-${id}`}
              name={`reader-${reader}`}
              label={reader === 1 ? 'First reader' : 'Second reader'}
            />
            <Field
              id={`first-${reader}-${id}`}
              name={`first-${reader}`}
              label={capital(unitName(units))}
              inputMode="text"
            />
            <Field
              id={`again-${reader}-${id}`}
              name={`again-${reader}`}
              label="Read again"
              inputMode="text"
            />
          </div>
        ))}
        {wasRead && me.role === 'SHIPWRIGHT' ? (
          <Field id={`why-${id}`} name="reason" label="Of a new baseline: why" />
        ) : null}
        <button type="submit" className="deed" disabled={busy}>
          Write them down
        </button>
      </Form>
    </details>
  );
}

function LiftIt({ markId, changed }: { markId: string; changed: () => void }) {
  const { run, busy } = useDeed(LiftDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  async function send(filled: Filled) {
    const answer = await run({ markId, reason: filled.text('reason') });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('The hold is lifted.');
    changed();
  }
  return (
    <details>
      <summary>Lift the hold, in my name</summary>
      <Answer outcome={outcome} done="The hold is lifted." fields={{ reason: `lift-${markId}` }} />
      <Form send={send}>
        <Note id={`lift-${markId}`} name="reason" label="What was looked at, and why opening may go on" />
        <button type="submit" className="deed" disabled={busy}>
          Lift the hold
        </button>
      </Form>
    </details>
  );
}
