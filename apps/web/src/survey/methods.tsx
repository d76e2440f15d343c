import { useState } from 'react';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { ChangeWork } from './preview.js';
import type { Method, Methods, Rate, Step } from './survey-document.js';
import { sayEstimate } from './survey-words.js';

/** The yard's methods, to be read; the shipwright changes rates and crews, with a reason, and sees first what follows. */
export function MethodsPart({
  methods,
  version,
  mayDo,
  done,
}: {
  methods: Methods;
  version: number;
  mayDo: boolean;
  done: () => void;
}) {
  const [draft, setDraft] = useState<{ of: number; methods: Methods } | null>(null);
  const now = draft?.of === version ? draft.methods : methods;
  const set = (book: Methods['book']): void => {
    setDraft({ of: version, methods: { ...now, book } });
  };
  return (
    <>
      <p>
        A method makes the tasks on each piece that the survey names: what is counted, who is wanted, what
        must come first. All times and rates are common practice until your own tallies say better.
      </p>
      {now.book.methods.map((method) => (
        <MethodSteps key={method.key} method={method} ownTasks={now.ownTasks} />
      ))}
      <details>
        <summary>Rates, for one person in an hour</summary>
        <table className="rates">
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">slow</th>
              <th scope="col">usual</th>
              <th scope="col">good</th>
            </tr>
          </thead>
          <tbody>
            {now.book.rates.map((rate) => (
              <tr key={rate.key}>
                <th scope="row">
                  {rate.says} ({rate.unit})
                </th>
                <td>{rate.low}</td>
                <td>{rate.likely}</td>
                <td>{rate.high}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
      {mayDo ? (
        <details>
          <summary>Change a rate or a crew</summary>
          <ChangeRate
            rates={now.book.rates}
            change={(rate) => {
              const rates = now.book.rates.map((one) => (one.key === rate.key ? rate : one));
              set({ ...now.book, rates });
            }}
          />
          <ChangeCrew
            methods={now.book.methods}
            change={(key, step) => {
              const changed = now.book.methods.map((method) =>
                method.key === key
                  ? { ...method, steps: method.steps.map((one) => (one.key === step.key ? step : one)) }
                  : method,
              );
              set({ ...now.book, methods: changed });
            }}
          />
          {draft?.of === version ? (
            <ChangeWork
              id="methods-change"
              change={{ methods: now, methodsVersion: version }}
              mayDo={mayDo}
              done={done}
            />
          ) : null}
        </details>
      ) : null}
    </>
  );
}

function MethodSteps({ method, ownTasks }: { method: Method; ownTasks: Record<string, string> }) {
  return (
    <details>
      <summary>
        {method.title}{' '}
        <span className="pencil">
          (for a {method.for}, version {method.version})
        </span>
      </summary>
      {method.changed ? (
        <p className="pencil">
          Changed by {method.changed.by}: {method.changed.reason}
        </p>
      ) : null}
      <ol className="steps">
        {method.steps.map((step) => (
          <li key={step.key}>
            {step.title}
            <span className="pencil">
              {' '}
              {method.for === 'vessel' && ownTasks[`vessel-${step.key}`]
                ? 'in the yard’s own list'
                : [
                    sayEstimate(step),
                    step.crew.max > 0 ? `crew ${step.crew.min} to ${step.crew.max}` : '',
                    ...step.seats.map((seat) => `${seat.count} ${seat.skill}`),
                    ...step.tools.map((use) => use.tool),
                    step.opens ? 'opens it' : '',
                    step.closes ? 'closes it' : '',
                  ]
                    .filter(Boolean)
                    .join(', ')}
            </span>
          </li>
        ))}
      </ol>
    </details>
  );
}

function ChangeRate({ rates, change }: { rates: Rate[]; change: (rate: Rate) => void }) {
  const [key, setKey] = useState(rates[0]?.key ?? '');
  const rate = rates.find((one) => one.key === key);
  if (!rate) return null;
  function submit(filled: Filled): Promise<void> {
    if (rate)
      change({
        ...rate,
        low: filled.number('low'),
        likely: filled.number('likely'),
        high: filled.number('high'),
      });
    return Promise.resolve();
  }
  return (
    <Form send={submit} className="row-form">
      <Choice
        id="rate-key"
        label="Rate"
        value={key}
        onChange={(event) => {
          setKey(event.target.value);
        }}
      >
        {rates.map((one) => (
          <option key={one.key} value={one.key}>
            {one.says}
          </option>
        ))}
      </Choice>
      {(['low', 'likely', 'high'] as const).map((point, at) => (
        <Field
          key={`${key} ${point}`}
          id={`rate-${point}`}
          name={point}
          label={['On a slow day', 'Usually', 'On a good day'][at]}
          inputMode="decimal"
          defaultValue={rate[point]}
        />
      ))}
      <button type="submit" className="quiet">
        Take this rate
      </button>
    </Form>
  );
}

function ChangeCrew({
  methods,
  change,
}: {
  methods: Method[];
  change: (method: string, step: Step) => void;
}) {
  const [chosen, setChosen] = useState('');
  const [methodKey = '', stepKey = ''] = chosen.split(' ');
  const step = methods.find((one) => one.key === methodKey)?.steps.find((one) => one.key === stepKey);
  function submit(filled: Filled): Promise<void> {
    if (step)
      change(methodKey, {
        ...step,
        crew: { min: filled.number('min'), efficient: filled.number('efficient'), max: filled.number('max') },
      });
    return Promise.resolve();
  }
  return (
    <Form send={submit} className="row-form">
      <Choice
        id="crew-step"
        label="Crew of"
        value={chosen}
        onChange={(event) => {
          setChosen(event.target.value);
        }}
      >
        <option value="">choose a step</option>
        {methods.map((method) => (
          <optgroup key={method.key} label={method.title}>
            {method.steps
              .filter((one) => one.crew.max > 0)
              .map((one) => (
                <option key={one.key} value={`${method.key} ${one.key}`}>
                  {one.title}
                </option>
              ))}
          </optgroup>
        ))}
      </Choice>
      {step ? (
        <>
          {(['min', 'efficient', 'max'] as const).map((point, at) => (
            <Field
              key={`${chosen} ${point}`}
              id={`crew-${point}`}
              name={point}
              label={['Fewest', 'Works well', 'Most'][at]}
              inputMode="numeric"
              defaultValue={step.crew[point]}
            />
          ))}
          <button type="submit" className="quiet">
            Take this crew
          </button>
        </>
      ) : null}
    </Form>
  );
}
