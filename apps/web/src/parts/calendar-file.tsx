import { useState, type ReactNode } from 'react';
import type { Outcome } from '../live/deed.js';
import { Answer } from './answer.js';
import { Field } from './field.js';
import { Form, type Filled } from './form.js';

interface CalendarFileProps {
  id: string;
  summary: string;
  hint: string;
  busy: boolean;
  /** Reads the file's text, and changes nothing. */
  look: (text: string) => Promise<Outcome<unknown>>;
  /** What was seen in it, to be taken or left. */
  children?: ReactNode;
}

/** A calendar file that is looked at before anything is taken from it. */
export function CalendarFile({ id, summary, hint, busy, look, children }: CalendarFileProps) {
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);

  async function read(filled: Filled) {
    const answer = await look((await filled.file('file')?.text()) ?? '');
    setOutcome(answer.kind === 'done' ? null : answer);
  }

  return (
    <details className="fold">
      <summary>{summary}</summary>
      <Form send={read}>
        <Answer outcome={outcome} done="" fields={{ text: id }} />
        <Field
          id={id}
          name="file"
          type="file"
          accept=".ics,text/calendar"
          label="A file that ends in .ics"
          hint={hint}
        />
        <button type="submit" className="quiet" disabled={busy}>
          Look at it
        </button>
      </Form>
      {children}
    </details>
  );
}
