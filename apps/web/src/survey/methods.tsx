import { useState } from 'react';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { EditStep } from './edit-step.js';
import { ChangeWork } from './preview.js';
import { keyFor, newStep, sayAfter } from './step-words.js';
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
        <MethodSteps key={method.key} method={method} methods={now.book.methods} ownTasks={now.ownTasks} />
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
          <summary>Change a rate or a step</summary>
          <ChangeRate
            rates={now.book.rates}
            change={(rate) => {
              const rates = now.book.rates.map((one) => (one.key === rate.key ? rate : one));
              set({ ...now.book, rates });
            }}
          />
          <ChangeStep
            book={now.book}
            change={(method) => {
              const changed = now.book.methods.map((one) => (one.key === method.key ? method : one));
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

function MethodSteps({
  method,
  methods,
  ownTasks,
}: {
  method: Method;
  methods: Method[];
  ownTasks: Record<string, string>;
}) {
  return (
    <details>
      <summary>
        {method.title}{' '}
        <span className="pencil">
          (for a {method.for}, version {method.version})
        </span>
      </summary>
      <Versions method={method} />
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
            <StepMore step={step} method={method} methods={methods} />
          </li>
        ))}
      </ol>
    </details>
  );
}

/** What was changed of a method, by whom and why, the newest first. */
function Versions({ method }: { method: Method }) {
  const changes = [...(method.changes ?? [])].reverse();
  if (changes.length === 0)
    return method.changed ? (
      <p className="pencil">
        Changed by {method.changed.by}: {method.changed.reason}
      </p>
    ) : null;
  return (
    <ul className="plain">
      {changes.map((change) => (
        <li key={change.version} className="pencil">
          Version {change.version}, by {change.by}: {change.reason} ({change.what.join('; ')})
        </li>
      ))}
    </ul>
  );
}

/** What can hurt at a step and what it waits for, for whoever wants to read it. */
function StepMore({ step, method, methods }: { step: Step; method: Method; methods: Method[] }) {
  const lines = [
    ...(step.hazards.length ? [`What can hurt: ${step.hazards.join(', ').replaceAll('-', ' ')}.`] : []),
    ...step.cautions,
    ...step.after.map((after) => `It ${sayAfter(methods, method, after)}.`),
  ];
  if (lines.length === 0) return null;
  return (
    <details className="fold">
      <summary>
        Cautions, and what comes first<span className="unseen">: {step.title}</span>
      </summary>
      <ul className="plain">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
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

function ChangeStep({ book, change }: { book: Methods['book']; change: (method: Method) => void }) {
  const [chosen, setChosen] = useState('');
  const [title, setTitle] = useState('');
  const [methodKey = '', stepKey = ''] = chosen.split(' ');
  const method = book.methods.find((one) => one.key === methodKey);
  const step = method?.steps.find((one) => one.key === stepKey);
  return (
    <>
      <Choice
        id="step-chosen"
        label="A step, or a new one"
        value={chosen}
        onChange={(event) => {
          setChosen(event.target.value);
        }}
      >
        <option value="">choose a step</option>
        {book.methods.map((one) => (
          <optgroup key={one.key} label={one.title}>
            {one.steps.map((each) => (
              <option key={each.key} value={`${one.key} ${each.key}`}>
                {each.title}
              </option>
            ))}
            <option value={`${one.key} `}>a new step of “{one.title}”</option>
          </optgroup>
        ))}
      </Choice>
      {method && step ? (
        <EditStep
          key={chosen}
          book={book}
          method={method}
          step={step}
          take={(taken) => {
            change({ ...method, steps: method.steps.map((one) => (one.key === step.key ? taken : one)) });
            setChosen('');
          }}
          remove={() => {
            change({ ...method, steps: method.steps.filter((one) => one.key !== step.key) });
            setChosen('');
          }}
        />
      ) : null}
      {method && !step ? (
        <div className="row-form">
          <Field
            id="new-step"
            label="What is done at it"
            value={title}
            onChange={(event) => {
              setTitle(event.target.value);
            }}
          />
          <button
            type="button"
            className="quiet"
            disabled={title.trim() === ''}
            onClick={() => {
              const taken = method.steps.map((one) => one.key);
              const made = newStep(keyFor(title, taken), title.trim());
              change({ ...method, steps: [...method.steps, made] });
              setTitle('');
              setChosen(`${method.key} ${made.key}`);
            }}
          >
            Add this step
          </button>
        </div>
      ) : null}
    </>
  );
}
