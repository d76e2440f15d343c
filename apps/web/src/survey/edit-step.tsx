import { useState } from 'react';
import { Choice, Field, Note, Tick } from '../parts/field.js';
import { EditAfters } from './edit-afters.js';
import { EditEstimate } from './edit-estimate.js';
import { EditSeats, EditTools } from './edit-seats.js';
import { countNames, eyesNames, hazardNames, kindWords, supportNames } from './step-words.js';
import type { Method, Methods, Step } from './survey-document.js';

interface EditStepProps {
  book: Methods['book'];
  method: Method;
  step: Step;
  take: (step: Step) => void;
  remove: () => void;
}

/** One step of a method, all of it: what is counted, who is wanted, what can hurt, what must come first. */
export function EditStep({ book, method, step, take, remove }: EditStepProps) {
  const [now, setNow] = useState(step);
  const set = (part: Partial<Step>): void => {
    setNow({ ...now, ...part });
  };
  const id = (part: string): string => `step-${part}`;
  const whole = (text: string): number => Math.max(0, Math.trunc(Number(text)) || 0);
  return (
    <div className="edit-step">
      <Field
        id={id('title')}
        label="What is done"
        value={now.title}
        onChange={(event) => {
          set({ title: event.target.value });
        }}
      />
      <div className="row-form">
        <Choice
          id={id('kind')}
          label="What kind"
          value={now.kind}
          onChange={(event) => {
            const kind = event.target.value as Step['kind'];
            const said = kind === 'hold' || kind === 'launch';
            const minutes = { low: 60, likely: 120, high: 240 };
            set({
              kind,
              estimate: said
                ? null
                : kind === 'work'
                  ? { by: 'work', personMinutes: minutes, each: null }
                  : { by: 'time', minutes },
            });
          }}
        >
          {Object.entries(kindWords).map(([kind, words]) => (
            <option key={kind} value={kind}>
              {words}
            </option>
          ))}
        </Choice>
        <Choice
          id={id('only')}
          label="Only where there are"
          value={now.onlyWith ?? ''}
          onChange={(event) => {
            set({ onlyWith: event.target.value || null });
          }}
        >
          <option value="">always</option>
          {countNames.map((name) => (
            <option key={name}>{name}</option>
          ))}
        </Choice>
      </div>
      <EditEstimate
        rates={book.rates}
        kind={now.kind}
        estimate={now.estimate}
        set={(estimate) => {
          set({ estimate });
        }}
      />
      <div className="row-form">
        {(['min', 'efficient', 'max'] as const).map((point, at) => (
          <Field
            key={point}
            id={id(point)}
            label={['Crew: fewest', 'Works well', 'Most'][at]}
            inputMode="numeric"
            value={now.crew[point]}
            onChange={(event) => {
              set({ crew: { ...now.crew, [point]: whole(event.target.value) } });
            }}
          />
        ))}
        <Field
          id={id('age')}
          label="Nobody under"
          hint="Empty: any age."
          inputMode="numeric"
          value={now.leastAge ?? ''}
          onChange={(event) => {
            set({ leastAge: event.target.value === '' ? null : whole(event.target.value) });
          }}
        />
        <Field
          id={id('set-up')}
          label="Minutes to set up at each return"
          inputMode="numeric"
          value={now.setUpMinutes}
          onChange={(event) => {
            set({ setUpMinutes: whole(event.target.value) });
          }}
        />
      </div>
      <Tick
        id={id('one-go')}
        label="In one go: once begun it is finished at the same turnout"
        checked={now.oneGo}
        onChange={(event) => {
          set({ oneGo: event.target.checked });
        }}
      />
      <Tick
        id={id('opens')}
        label="The piece is open from its start"
        checked={now.opens}
        onChange={(event) => {
          set({ opens: event.target.checked });
        }}
      />
      <Tick
        id={id('closes')}
        label="The piece is shut at its end"
        checked={now.closes}
        onChange={(event) => {
          set({ closes: event.target.checked });
        }}
      />
      <EditSeats
        seats={now.seats}
        set={(seats) => {
          set({ seats });
        }}
      />
      <EditTools
        tools={now.tools}
        set={(tools) => {
          set({ tools });
        }}
      />
      <fieldset className="ticks">
        <legend>What can hurt</legend>
        {hazardNames.map((hazard) => (
          <Tick
            key={hazard}
            id={id(`hazard-${hazard}`)}
            label={hazard.replaceAll('-', ' ')}
            checked={now.hazards.includes(hazard)}
            onChange={(event) => {
              const others = now.hazards.filter((one) => one !== hazard);
              set({ hazards: event.target.checked ? [...others, hazard] : others });
            }}
          />
        ))}
      </fieldset>
      <Note
        id={id('cautions')}
        label="Cautions, one to a line"
        value={now.cautions.join('\n')}
        onChange={(event) => {
          set({ cautions: event.target.value.split('\n') });
        }}
      />
      <div className="row-form">
        <Choice
          id={id('eyes')}
          label="Who has to see it first"
          value={now.eyes ?? ''}
          onChange={(event) => {
            const { eyes: _eyes, ...others } = now;
            setNow(event.target.value ? { ...others, eyes: event.target.value } : others);
          }}
        >
          <option value="">nobody from outside</option>
          {eyesNames.map((eyes) => (
            <option key={eyes} value={eyes}>
              {eyes === 'sling' ? 'a named person: slung, zone clear' : `the ${eyes}`}
            </option>
          ))}
        </Choice>
        <Field
          id={id('notice')}
          label="Days of notice they want"
          hint="Empty: none."
          inputMode="numeric"
          value={now.noticeDays ?? ''}
          onChange={(event) => {
            set({ noticeDays: event.target.value === '' ? null : whole(event.target.value) });
          }}
        />
        <Choice
          id={id('sets')}
          label="What stands once it is done"
          value={now.sets ?? ''}
          onChange={(event) => {
            const { sets: _sets, ...others } = now;
            setNow(event.target.value ? { ...others, sets: event.target.value } : others);
          }}
        >
          <option value="">nothing that holds her</option>
          {supportNames.map((kind) => (
            <option key={kind} value={kind}>
              {kind}s, wherever she is opened
            </option>
          ))}
        </Choice>
      </div>
      <EditAfters
        methods={book.methods}
        own={method}
        afters={now.after}
        set={(after) => {
          set({ after });
        }}
      />
      <div className="buttons">
        <button
          type="button"
          className="quiet"
          onClick={() => {
            take({ ...now, cautions: now.cautions.map((line) => line.trim()).filter(Boolean) });
          }}
        >
          Take this step
        </button>
        <button type="button" className="quiet" onClick={remove}>
          Leave this step out of the method
        </button>
      </div>
    </div>
  );
}
