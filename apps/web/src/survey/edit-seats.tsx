import type { ReactNode } from 'react';
import { Choice, Field } from '../parts/field.js';
import { levelNames } from './step-words.js';
import type { Step, StepSeat } from './survey-document.js';

/** Who is wanted at a step: how many of which skill, at what level. */
export function EditSeats({ seats, set }: { seats: StepSeat[]; set: (seats: StepSeat[]) => void }) {
  const change = (at: number, part: Partial<StepSeat>): void => {
    set(seats.map((seat, other) => (other === at ? { ...seat, ...part } : seat)));
  };
  return (
    <Rows
      legend="Seats that want a skill"
      add="Another seat"
      rows={seats}
      addOne={() => {
        set([...seats, { skill: '', level: 2, count: 1, cards: [] }]);
      }}
      removeOne={(at) => {
        set(seats.filter((_, other) => other !== at));
      }}
      draw={(seat, at) => (
        <>
          <Field
            id={`seat-${at}-count`}
            label="How many"
            inputMode="numeric"
            value={seat.count}
            onChange={(event) => {
              change(at, { count: Math.trunc(Number(event.target.value)) || 0 });
            }}
          />
          <Field
            id={`seat-${at}-skill`}
            label="Skill"
            value={seat.skill}
            onChange={(event) => {
              change(at, { skill: event.target.value });
            }}
          />
          <Choice
            id={`seat-${at}-level`}
            label="Who"
            value={seat.level}
            onChange={(event) => {
              change(at, { level: Number(event.target.value) });
            }}
          >
            {levelNames.map((words, level) => (
              <option key={words} value={level + 1}>
                {words}
              </option>
            ))}
          </Choice>
          <Field
            id={`seat-${at}-cards`}
            label="With cards"
            hint="Commas between."
            value={seat.cards.join(',')}
            onChange={(event) => {
              const cards = event.target.value.split(',').map((card) => card.trimStart());
              change(at, { cards: event.target.value === '' ? [] : cards });
            }}
          />
        </>
      )}
    />
  );
}

/** What a step wants of what the yard has few of. */
export function EditTools({ tools, set }: { tools: Step['tools']; set: (tools: Step['tools']) => void }) {
  const change = (at: number, part: Partial<Step['tools'][number]>): void => {
    set(tools.map((tool, other) => (other === at ? { ...tool, ...part } : tool)));
  };
  return (
    <Rows
      legend="Tools and stations of which there are few"
      add="Another tool"
      rows={tools}
      addOne={() => {
        set([...tools, { tool: '', count: 1 }]);
      }}
      removeOne={(at) => {
        set(tools.filter((_, other) => other !== at));
      }}
      draw={(tool, at) => (
        <>
          <Field
            id={`tool-${at}-count`}
            label="How many"
            inputMode="numeric"
            value={tool.count}
            onChange={(event) => {
              change(at, { count: Math.trunc(Number(event.target.value)) || 0 });
            }}
          />
          <Field
            id={`tool-${at}-name`}
            label="Tool"
            value={tool.tool}
            onChange={(event) => {
              change(at, { tool: event.target.value });
            }}
          />
        </>
      )}
    />
  );
}

interface RowsProps<Row> {
  legend: string;
  add: string;
  rows: Row[];
  addOne: () => void;
  removeOne: (at: number) => void;
  draw: (row: Row, at: number) => ReactNode;
}

/** Rows that are added and taken away, each with its controls. */
export function Rows<Row>({ legend, add, rows, addOne, removeOne, draw }: RowsProps<Row>) {
  return (
    <fieldset className="rows">
      <legend>{legend}</legend>
      {rows.map((row, at) => (
        // A row has no name of its own: it is what stands in its place.
        <div className="row-form" key={String(at)}>
          {draw(row, at)}
          <button
            type="button"
            className="quiet"
            aria-label={`Take it away: row ${at + 1} of ${legend.toLowerCase()}`}
            onClick={() => {
              removeOne(at);
            }}
          >
            Take it away
          </button>
        </div>
      ))}
      <button type="button" className="quiet" onClick={addOne}>
        {add}
      </button>
    </fieldset>
  );
}
