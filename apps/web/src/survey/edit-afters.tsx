import { Choice, Field } from '../parts/field.js';
import { Rows } from './edit-seats.js';
import { relationWords, stepsToWaitFor, touchingWords } from './step-words.js';
import type { Method, StepAfter } from './survey-document.js';

interface EditAftersProps {
  methods: Method[];
  own: Method;
  afters: StepAfter[];
  set: (afters: StepAfter[]) => void;
}

/** What a step waits for: steps of the same piece, or of what touches it. */
export function EditAfters({ methods, own, afters, set }: EditAftersProps) {
  const change = (at: number, part: Partial<StepAfter>): void => {
    set(afters.map((after, other) => (other === at ? { ...after, ...part } : after)));
  };
  const first = (of: string): string => stepsToWaitFor(methods, own, of)[0]?.key ?? '';
  return (
    <Rows
      legend="What must come first"
      add="Another step that comes first"
      rows={afters}
      addOne={() => {
        set([
          ...afters,
          { step: first('itself'), of: 'itself', relation: 'finish-to-start', lag: { turnouts: 0 } },
        ]);
      }}
      removeOne={(at) => {
        set(afters.filter((_, other) => other !== at));
      }}
      draw={(after, at) => (
        <>
          <Choice
            id={`after-${at}-relation`}
            label="It"
            value={after.relation}
            onChange={(event) => {
              change(at, { relation: event.target.value });
            }}
          >
            {Object.entries(relationWords).map(([relation, words]) => (
              <option key={relation} value={relation}>
                {words}
              </option>
            ))}
          </Choice>
          <Choice
            id={`after-${at}-of`}
            label="A step"
            value={after.of}
            onChange={(event) => {
              change(at, { of: event.target.value, step: first(event.target.value) });
            }}
          >
            {Object.entries(touchingWords).map(([of, { says }]) => (
              <option key={of} value={of}>
                {says}
              </option>
            ))}
          </Choice>
          <Choice
            id={`after-${at}-step`}
            label="Namely"
            value={after.step}
            onChange={(event) => {
              change(at, { step: event.target.value });
            }}
          >
            {stepsToWaitFor(methods, own, after.of).map((step) => (
              <option key={step.key} value={step.key}>
                {step.title}
              </option>
            ))}
          </Choice>
          {'turnouts' in after.lag ? (
            <Field
              id={`after-${at}-lag`}
              label="Turnouts later"
              type="number"
              min={0}
              step={0.5}
              value={after.lag.turnouts}
              onChange={(event) => {
                change(at, { lag: { turnouts: Number(event.target.value) } });
              }}
            />
          ) : (
            <Field
              id={`after-${at}-lag`}
              label="Hours of the calendar later"
              type="number"
              min={0}
              step={0.5}
              value={after.lag.elapsedMinutes / 60}
              onChange={(event) => {
                change(at, { lag: { elapsedMinutes: Math.round(Number(event.target.value) * 60) } });
              }}
            />
          )}
        </>
      )}
    />
  );
}
