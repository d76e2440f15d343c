import { useEffect, useRef, type MouseEvent } from 'react';
import type { Refusal } from '../live/deed.js';
import type { KeptOutcome } from '../live/kept-deeds.js';
import { controlFor } from './control-for.js';

interface AnswerProps {
  outcome: KeptOutcome<unknown> | null;
  /** What to say when it was done. */
  done: string;
  /** Which control a refused field belongs to: the end of the field's path to the control's id. */
  fields?: Record<string, string>;
}

const keptWords =
  'No line just now. This is kept here and sent when the line is back; you are told what came of it.';

/**
 * What came of something asked. A refusal takes the focus and leads to the field that it names; so does a yes when the
 * button that was pressed has gone and nothing else has the focus.
 */
export function Answer({ outcome, done, fields = {} }: AnswerProps) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!outcome) return;
    const isYes = outcome.kind === 'done' || outcome.kind === 'kept';
    if (!isYes || document.activeElement === document.body) box.current?.focus();
  }, [outcome]);
  if (!outcome) return null;
  if (outcome.kind === 'done' || outcome.kind === 'kept') {
    return (
      <div ref={box} className="answer answer-yes" role="status" tabIndex={-1}>
        <p>{outcome.kind === 'kept' ? keptWords : done}</p>
      </div>
    );
  }
  return (
    <div ref={box} className="answer answer-no" role="alert" tabIndex={-1}>
      {outcome.kind === 'fault' ? (
        <p>{outcome.words}</p>
      ) : (
        <RefusalWords refusal={outcome.refusal} fields={fields} />
      )}
    </div>
  );
}

function RefusalWords({ refusal, fields }: { refusal: Refusal; fields: Record<string, string> }) {
  const control = controlFor(refusal.field, fields);
  return (
    <>
      <p className="answer-what">
        {control ? (
          <a
            href={`#${control}`}
            onClick={(event) => {
              lead(event, control);
            }}
          >
            {refusal.message}
          </a>
        ) : (
          refusal.message
        )}
      </p>
      {refusal.remedy ? <p>{refusal.remedy}</p> : null}
      {refusal.facts.length ? (
        <dl className="facts">
          {refusal.facts.map((fact) => (
            <div key={fact.name}>
              <dt>{fact.name}</dt>
              <dd>{fact.value}</dd>
            </div>
          ))}
        </dl>
      ) : null}
    </>
  );
}

/** The address keeps the page's place, so the jump to the field is made here. */
function lead(event: MouseEvent, control: string): void {
  event.preventDefault();
  document.getElementById(control)?.focus();
}
