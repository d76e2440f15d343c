import { useState } from 'react';
import { useClient } from 'urql';
import { graphql } from '../gql/gql.js';
import type { DrawOutlineQuery } from '../gql/graphql.js';
import { sayFault, useDeed, type Outcome, type Refusal } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Field, Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { count } from '../words/amounts.js';
import { forField, unitName } from '../words/lengths.js';
import { DrawnShell } from './drawn-shell.js';
import {
  entries,
  fieldIds,
  type OutlineEntry,
  readOutline,
  rowsOf,
  type Outline,
} from './outline-entries.js';

const DrawOutlineQuestion = graphql(`
  query DrawOutline($outline: JSONDocument!) {
    drawOutline(outline: $outline) {
      __typename
      ... on OutlineDrawing {
        planks
        ceilingPlanks
        framePieces
        nails
        sides {
          side
          length
          height
          planks {
            name
            left
            right
            low
            high
          }
          frames {
            number
            x
            head
          }
        }
      }
      ...Refused
    }
  }
`);

const SetHullOutlineDeed = graphql(`
  mutation SetHullOutline($outline: JSONDocument!, $version: Int) {
    setHullOutline(outline: $outline, version: $version) {
      __typename
      ... on HullOutlinePayload {
        hullOutline {
          version
        }
      }
      ...Refused
    }
  }
`);

type Drawing = Extract<DrawOutlineQuery['drawOutline'], { __typename: 'OutlineDrawing' }>;

/** How she is built, by counts, patterns and what differs from them: five minutes with a pencil drawing at hand. */
export function OutlineForm({
  outline,
  version,
  changed,
}: {
  outline: Outline | null;
  version: number | null;
  changed: () => void;
}) {
  const { me } = useYard();
  const { units } = me.organisation;
  const client = useClient();
  const { run, busy } = useDeed(SetHullOutlineDeed);
  const [drawing, setDrawing] = useState<Drawing | null>(null);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const given = rowsOf(outline, (millimetres) => forField(millimetres, units));

  async function draw(filled: Filled) {
    setOutcome(null);
    const read = readOutline((name) => filled.text(name), units, outline);
    const { data, error } = await client.query(DrawOutlineQuestion, { outline: read }).toPromise();
    if (error) setOutcome({ kind: 'fault', words: sayFault(error) });
    else if (data?.drawOutline.__typename === 'OutlineDrawing') setDrawing(data.drawOutline);
    else setOutcome({ kind: 'refused', refusal: data?.drawOutline as Refusal });
  }

  async function enter(form: HTMLFormElement | null) {
    if (!form) return;
    const values = new FormData(form);
    const text = (name: string): string => {
      const value = values.get(name);
      return typeof value === 'string' ? value.trim() : '';
    };
    const answer = await run({ outline: readOutline(text, units, outline), version });
    setOutcome(answer);
    if (answer.kind === 'done') changed();
  }

  const input = ({ name, label, kind, hint }: OutlineEntry) => {
    const shown = {
      id: `outline-${name}`,
      name,
      label: kind === 'length' ? `${label}, ${unitName(units)}` : label,
      hint,
      defaultValue: given[name] ?? '',
    };
    if (kind === 'lines') return <Note key={name} rows={4} {...shown} />;
    return <Field key={name} inputMode={kind === 'words' ? 'text' : 'decimal'} {...shown} />;
  };

  return (
    <Form send={draw} className="outline-form">
      <Answer outcome={outcome} done="She is written down so." fields={fieldIds} />
      {entries.map(({ title, fields }) => (
        <fieldset key={title}>
          <legend>{title}</legend>
          {fields.map(input)}
        </fieldset>
      ))}
      <button type="submit" className="quiet">
        Draw her so
      </button>
      {drawing ? (
        <div role="status">
          <p>
            {count(drawing.planks, 'plank')} in the shell and {drawing.ceilingPlanks} in the ceiling,{' '}
            {drawing.framePieces} frame pieces, {drawing.nails} nails through the shell.
          </p>
          {drawing.sides.map((side) => (
            <DrawnShell key={side.side} side={side} />
          ))}
        </div>
      ) : null}
      <button
        type="button"
        className="deed"
        disabled={busy}
        onClick={(event) => void enter(event.currentTarget.form)}
      >
        {busy ? 'Entering…' : 'Enter her so'}
      </button>
    </Form>
  );
}
