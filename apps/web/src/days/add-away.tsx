import { useYard } from '../live/yard.js';
import { Choice, Field } from '../parts/field.js';
import type { Exception } from '../words/attendance.js';
import { Form, type Filled } from '../parts/form.js';
import { nightHint } from './night-hint.js';

interface AddAwayProps {
  busy: boolean;
  add: (exception: Exception) => Promise<boolean>;
}

/** Days away, or single days beyond the usual ones. */
export function AddAway({ busy, add }: AddAwayProps) {
  const { today } = useYard();

  async function submit(filled: Filled) {
    const fromOn = filled.text('fromOn') || today;
    const done = await add({
      fromOn,
      toOn: filled.text('toOn') || fromOn,
      canCome: filled.text('canCome') === 'yes',
      from: filled.textOrNull('from'),
      to: filled.textOrNull('to'),
    });
    if (done) filled.form.reset();
  }

  return (
    <details className="fold">
      <summary>Add days away, or an extra day</summary>
      <Form send={submit}>
        <Choice id="away-kind" name="canCome" label="On these days I">
          <option value="no">am away</option>
          <option value="yes">can come, besides my usual days</option>
        </Choice>
        <div className="row">
          <Field id="away-from" name="fromOn" type="date" label="From" defaultValue={today} />
          <Field
            id="away-to"
            name="toOn"
            type="date"
            label="To, that day too"
            hint="Leave empty for one day."
          />
        </div>
        <div className="row">
          <Field
            id="away-not-before"
            name="from"
            type="time"
            label="From this hour"
            hint="Leave empty for the whole day."
          />
          <Field id="away-not-after" name="to" type="time" label="To this hour" hint={nightHint} />
        </div>
        <button type="submit" className="deed" disabled={busy}>
          Add
        </button>
      </Form>
    </details>
  );
}
