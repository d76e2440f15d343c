import { useState } from 'react';
import { useYard } from '../live/yard.js';
import { Choice, Field } from '../parts/field.js';
import type { Rule } from '../words/attendance.js';
import { makeRule, rhythms, weekdays, type Rhythm, type Weekday } from '../words/availability.js';
import { Form, type Filled } from '../parts/form.js';
import { nightHint } from './night-hint.js';

const noon = '12:00';

interface AddRuleProps {
  busy: boolean;
  add: (rule: Rule) => Promise<boolean>;
}

/** "Every other Saturday, from 09:00": said with a choice and some ticks. */
export function AddRule({ busy, add }: AddRuleProps) {
  const { today } = useYard();
  const [missing, setMissing] = useState(false);

  async function submit(filled: Filled) {
    const days = filled.all('day') as Weekday[];
    setMissing(days.length === 0);
    if (!days.length) return;
    const part = filled.text('part');
    const done = await add({
      rule: makeRule(filled.text('rhythm') as Rhythm, days),
      startsOn: filled.textOrNull('startsOn') ?? today,
      untilOn: filled.textOrNull('untilOn'),
      from: part === 'afternoon' ? noon : filled.textOrNull('from'),
      to: part === 'morning' ? noon : filled.textOrNull('to'),
    });
    if (done) filled.form.reset();
  }

  return (
    <details className="fold">
      <summary>Add days</summary>
      <Form send={submit}>
        <Choice id="rule-rhythm" name="rhythm" label="How often">
          {rhythms.map((rhythm) => (
            <option key={rhythm.value} value={rhythm.value}>
              {rhythm.words}
            </option>
          ))}
        </Choice>
        <fieldset aria-describedby={missing ? 'rule-days-wrong' : undefined}>
          <legend>On</legend>
          {missing ? (
            <p id="rule-days-wrong" className="wrong" role="alert">
              Tick at least one day.
            </p>
          ) : null}
          <div className="day-ticks">
            {weekdays.map((day) => (
              <div key={day.code} className="tick">
                <input type="checkbox" id={`rule-${day.code}`} name="day" value={day.code} />
                <label htmlFor={`rule-${day.code}`}>{day.name}</label>
              </div>
            ))}
          </div>
        </fieldset>
        <div className="row">
          <Field
            id="rule-starts"
            name="startsOn"
            type="date"
            label="Beginning"
            defaultValue={today}
            hint="Every other week counts from here."
          />
          <Field id="rule-until" name="untilOn" type="date" label="Until" hint="Leave empty for always." />
        </div>
        <Choice id="rule-part" name="part" label="Which part of the day">
          <option value="">the whole turnout, or the times below</option>
          <option value="morning">only mornings, until noon</option>
          <option value="afternoon">only afternoons, from noon</option>
        </Choice>
        <div className="row">
          <Field
            id="rule-from"
            name="from"
            type="time"
            label="Not before"
            hint="Leave empty for the whole turnout."
          />
          <Field id="rule-to" name="to" type="time" label="Not after" hint={nightHint} />
        </div>
        <button type="submit" className="deed" disabled={busy}>
          Add these days
        </button>
      </Form>
    </details>
  );
}
