import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Choice, Field, Tick } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Stepper } from './stepper.js';
import type { Tray } from './trays.question.js';

const EnterTrayDeed = graphql(`
  mutation EnterTray($trayId: ID!, $said: TrayWordsInput!, $work: TrayWorkInput) {
    enterTray(trayId: $trayId, said: $said, work: $work) {
      __typename
      ... on TrayPayload {
        tray {
          id
        }
      }
      ...Refused
    }
  }
`);

const fields = {
  drawn: 'tray-drawn',
  pulledThrough: 'tray-pulledThrough',
  cut: 'tray-cut',
  punched: 'tray-punched',
  boredOut: 'tray-boredOut',
  leftInPlace: 'tray-leftInPlace',
  leftReason: 'tray-leftReason',
  sound: 'tray-sound',
  scrapped: 'tray-scrapped',
  lost: 'tray-lost',
  lostReason: 'tray-lostReason',
  bought: 'tray-bought',
  lotId: 'tray-lot',
  driven: 'tray-driven',
  counted: 'tray-counted',
  frame: 'tray-frame',
  minutes: 'tray-hours',
  note: 'tray-note',
};

type Part = 'out' | 'stubs' | 'grade' | 'back' | 'count';

const partNames: Record<Part, string> = {
  out: 'Pulled',
  stubs: 'Stubs',
  grade: 'Graded',
  back: 'Driven',
  count: 'Counted',
};

interface Lots {
  id: string;
  name: string;
  size: string;
  fastening: string;
  left: number;
}

/** What happened at a tray, in a few taps. The tally of the work goes with it: nothing is entered twice. */
export function EnterTray({ tray, lots, entered }: { tray: Tray; lots: Lots[]; entered: () => void }) {
  const { me } = useYard();
  const { run, busy } = useDeed(EnterTrayDeed);
  const say = useSay();
  const [part, setPart] = useState<Part>(startsWith(tray));
  const [counts, setCounts] = useState<Record<string, number>>({});
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const { balance } = tray;
  const work = part === 'out' ? tray.pullTask : part === 'back' ? tray.driveTask : null;

  async function submit(filled: Filled) {
    const counted = part === 'count' ? filled.number('counted') : null;
    const lotId = part === 'back' && counts['bought'] ? filled.textOrNull('lot') : null;
    const answer = await run({
      trayId: tray.id,
      said: {
        ...counts,
        counted,
        lotId,
        frame: part === 'out' && filled.text('frame') ? filled.number('frame') : null,
        leftReason: filled.textOrNull('leftReason'),
        lostReason: filled.textOrNull('lostReason'),
        note: filled.textOrNull('note'),
      },
      work:
        work && counts['bought'] === undefined
          ? { minutes: Math.round(filled.number('hours') * 60), finished: filled.ticked('finished') }
          : null,
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    setCounts({});
    filled.form.reset();
    say(`Entered at tray ${tray.name}.`);
    entered();
  }

  const step = (name: keyof typeof fields, label: string, most: number, hint?: string) => (
    <Stepper
      id={fields[name]}
      label={label}
      value={counts[name] ?? 0}
      {...(hint ? { hint } : {})}
      change={(value) => {
        setCounts((before) => {
          const { [name]: _old, ...rest } = before;
          return value === 0 ? rest : { ...rest, [name]: Math.min(value, Math.max(most, 0) + 999) };
        });
      }}
    />
  );

  return (
    <Form send={submit} className="enter-tray">
      <Answer outcome={outcome} done={`Entered at tray ${tray.name}. Thank you.`} fields={fields} />
      <div role="group" aria-label="What happened" className="tray-parts">
        {(Object.keys(partNames) as Part[]).map((one) => (
          <button
            key={one}
            type="button"
            aria-pressed={part === one}
            onClick={() => {
              setPart(one);
              setCounts({});
              setOutcome(null);
            }}
          >
            {partNames[one]}
          </button>
        ))}
      </div>
      {part === 'out' ? (
        <>
          <p className="hint">{balance.stillIn} are still in.</p>
          <div className="steppers">
            {step('drawn', 'Drawn whole', balance.stillIn)}
            {step('pulledThrough', 'Pulled through the plank', balance.stillIn)}
            {step('cut', 'Heads off', balance.stillIn)}
          </div>
          {tray.frames.length ? (
            <Choice id={fields.frame} name="frame" label="At which frame, if you know">
              <option value="">not said</option>
              {tray.frames.map((one) => (
                <option key={one.frame} value={one.frame}>
                  frame {one.frame} ({one.stillIn} of {one.inPlace} in)
                </option>
              ))}
            </Choice>
          ) : null}
        </>
      ) : null}
      {part === 'stubs' ? (
        <>
          <p className="hint">{balance.stubsWaiting} stubs wait.</p>
          <div className="steppers">
            {step('punched', 'Punched out', balance.stubsWaiting)}
            {step('boredOut', 'Bored out', balance.stubsWaiting)}
            {step('leftInPlace', 'Left in place', balance.stubsWaiting)}
          </div>
          {counts['leftInPlace'] ? (
            <Field id={fields.leftReason} name="leftReason" label="Why they stay" maxLength={300} />
          ) : null}
        </>
      ) : null}
      {part === 'grade' ? (
        <>
          <p className="hint">{balance.notGraded} are not graded yet.</p>
          <div className="steppers">
            {step('sound', 'Sound', balance.notGraded)}
            {step('scrapped', 'Scrap', balance.notGraded)}
            {step('lost', 'Lost', balance.notGraded)}
          </div>
          {counts['lost'] ? (
            <Field id={fields.lostReason} name="lostReason" label="What is known of it" maxLength={300} />
          ) : null}
        </>
      ) : null}
      {part === 'back' ? (
        <>
          <p className="hint">{balance.inTray} lie ready in the tray.</p>
          <div className="steppers">
            {step('driven', 'Driven into the hull', balance.inTray)}
            {step('bought', 'Put in from a lot', 999)}
          </div>
          {counts['bought'] ? (
            <Choice id={fields.lotId} name="lot" label="From which lot">
              {lots
                .filter((lot) => lot.fastening === tray.fastening)
                .map((lot) => (
                  <option key={lot.id} value={lot.id}>
                    {lot.name}, {lot.size}: {lot.left} left
                  </option>
                ))}
            </Choice>
          ) : null}
        </>
      ) : null}
      {part === 'count' ? (
        <Field
          id={fields.counted}
          name="counted"
          type="number"
          inputMode="numeric"
          min={0}
          defaultValue={balance.notGraded + balance.inTray}
          label="How many lie in it"
          hint={`By the entries it should be ${balance.notGraded + balance.inTray}.`}
        />
      ) : null}
      {work && counts['bought'] === undefined ? (
        <>
          <Field
            id={fields.minutes}
            name="hours"
            type="number"
            inputMode="decimal"
            min={0}
            step={0.25}
            defaultValue={0}
            label={me.role === 'VOLUNTEER' ? 'Hours it took you' : 'Hours of work, of all hands together'}
            hint={`They are counted on “${work.title}”.`}
          />
          <Tick
            id="tray-finished"
            name="finished"
            label="All that can be done here is done"
            hint="It then waits for the shipwright to look at it."
          />
        </>
      ) : null}
      <details className="fold">
        <summary>A word about it</summary>
        <Field id={fields.note} name="note" label="What the next crew should know" maxLength={500} />
      </details>
      <button type="submit" className="deed" disabled={busy}>
        {busy ? 'Entering…' : 'Enter it'}
      </button>
    </Form>
  );
}

/** The part that is most likely wanted. */
function startsWith({ balance }: Tray): Part {
  if (balance.stillIn > 0) return 'out';
  if (balance.stubsWaiting > 0) return 'stubs';
  return balance.notGraded > 0 ? 'grade' : 'back';
}
