import { useState, type ReactNode } from 'react';
import { useSay } from '../live/announcer.js';
import type { Outcome } from '../live/deed.js';
import { Answer } from './answer.js';
import { controlFor } from './control-for.js';
import { Form, type Filled } from './form.js';

interface FoldFormProps {
  summary: ReactNode;
  /** The words on its button. */
  press: string;
  /** What is said when it was done. */
  done: string;
  /** Which control a refused field belongs to: the end of the field's path to the control's id. */
  fields?: Record<string, string>;
  className?: string;
  send: (filled: Filled) => Promise<Outcome<unknown>>;
  changed: () => void;
  /** Something is typed. */
  onInput?: () => void;
  children: ReactNode;
}

/** Something to write down, behind a fold: its controls, what came of it, said aloud when it was done. */
export function FoldForm({
  summary,
  press,
  done,
  fields,
  className,
  send,
  changed,
  onInput,
  children,
}: FoldFormProps) {
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const [busy, setBusy] = useState(false);

  async function submit(filled: Filled) {
    setBusy(true);
    const answer = await send(filled);
    setBusy(false);
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    filled.form.reset();
    say(done);
    changed();
  }

  return (
    <details>
      <summary>{summary}</summary>
      <Answer outcome={outcome} done={done} {...(fields ? { fields } : {})} />
      <Form
        send={submit}
        onInput={({ target }) => {
          onInput?.();
          if (isPutRight(outcome, target as Node, fields)) setOutcome(null);
        }}
        {...(className ? { className } : {})}
      >
        {children}
        <button type="submit" className="deed" disabled={busy}>
          {press}
        </button>
      </Form>
    </details>
  );
}

/** What was refused is being put right, at the control that it names: it is said again where it still is wrong. */
function isPutRight(
  outcome: Outcome<unknown> | null,
  typedAt: Node,
  fields: Record<string, string> = {},
): boolean {
  if (!outcome || outcome.kind === 'done') return false;
  const named = outcome.kind === 'refused' ? controlFor(outcome.refusal.field, fields) : null;
  const control = named === null ? null : document.getElementById(named);
  return control === null || control.contains(typedAt);
}
