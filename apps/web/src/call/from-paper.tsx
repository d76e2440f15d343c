import { useState } from 'react';
import { Field } from '../parts/field.js';
import { list } from '../words/amounts.js';
import type { Sheet } from './call.question.js';
import { letterOf, readNumbers } from './paper.js';
import { tick, type WhoCame } from './who-came.js';

interface FromPaperProps {
  sheet: Sheet;
  /** Whoever is named is here; whoever stands beside a letter was on that work. */
  entered: (alter: (came: WhoCame) => WhoCame, onWork: Map<string, string[]>) => void;
}

/** The sheet from the wall, entered by its numbers: once a line, in a minute. */
export function FromPaper({ sheet, entered }: FromPaperProps) {
  const [came, setCame] = useState('');
  const [lines, setLines] = useState<Record<string, string>>({});
  const most = sheet.people.length;
  const idOf = new Map(sheet.people.map(({ hand, number }) => [number, hand.volunteerId]));
  const wrong = [came, ...Object.values(lines)].flatMap((text) => readNumbers(text, most).wrong);

  function enter() {
    const ids = (text: string) => readNumbers(text, most).numbers.flatMap((number) => idOf.get(number) ?? []);
    const onWork = new Map(sheet.work.map(({ task }) => [task.id, ids(lines[task.id] ?? '')]));
    const here = [...ids(came), ...[...onWork.values()].flat()];
    entered((known) => here.reduce((all, id) => tick(all, id, 'PAPER'), known), onWork);
  }
  return (
    <details className="fold">
      <summary>Enter the sheet from the wall</summary>
      <Field
        id="paper-came"
        label="Who came, by number"
        hint="1-4 7 9"
        inputMode="text"
        autoComplete="off"
        value={came}
        onChange={(event) => {
          setCame(event.target.value);
        }}
      />
      {sheet.work.map(({ task }, i) => (
        <Field
          key={task.id}
          id={`paper-${task.id}`}
          label={`${letterOf(i)}: who was on “${task.title}”`}
          autoComplete="off"
          value={lines[task.id] ?? ''}
          onChange={(event) => {
            setLines({ ...lines, [task.id]: event.target.value });
          }}
        />
      ))}
      {wrong.length ? (
        <p className="wrong" role="status">
          No numbers of this sheet: {list(wrong)}.
        </p>
      ) : null}
      <button type="button" className="quiet" onClick={enter} disabled={wrong.length > 0}>
        Take it over from the sheet
      </button>
    </details>
  );
}
