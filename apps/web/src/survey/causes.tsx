import { Field, Tick } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import type { Survey } from './survey-document.js';

/** Why it rotted: each cause with its own task, or the repair is said to be temporary. */
export function Causes({
  causes,
  mayChange,
  set,
}: {
  causes: Survey['causes'];
  mayChange: boolean;
  set: (causes: Survey['causes']) => void;
}) {
  function submit(filled: Filled): Promise<void> {
    const name = filled.text('cause');
    const key = name
      .toLowerCase()
      .replaceAll(/[^a-z0-9]+/g, '-')
      .replaceAll(/^-|-$/g, '');
    if (key !== '' && !causes.some((one) => one.key === key))
      set([...causes, { key, name, hasTask: filled.ticked('hasTask') }]);
    filled.form.reset();
    return Promise.resolve();
  }
  return (
    <>
      <ul className="plain">
        {causes.map((cause) => (
          <li key={cause.key}>
            {cause.name}:{' '}
            {cause.hasTask
              ? 'mended in this haul-out'
              : 'not mended, so repairs that rest on it are temporary'}
          </li>
        ))}
      </ul>
      {mayChange ? (
        <Form send={submit} className="row-form">
          <Field id="cause-name" name="cause" label="Another cause" hint="Deck edge, scuppers, no air." />
          <Tick id="cause-task" name="hasTask" label="It is mended in this haul-out" defaultChecked />
          <button type="submit" className="quiet">
            Add this cause
          </button>
        </Form>
      ) : null}
    </>
  );
}
