import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Choice, Field, Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Section } from '../parts/page.js';
import { count } from '../words/amounts.js';
import { readSections, writeSections, type Measured } from './shape-words.js';

const ShapeQuestion = graphql(`
  query HullShape {
    hullShape {
      version
      measured
      keptBy
      standOut
    }
  }
`);

const SetHullShapeDeed = graphql(`
  mutation SetHullShape($shape: JSONDocument!, $version: Int) {
    setHullShape(shape: $shape, version: $version) {
      __typename
      ... on HullShapePayload {
        hullShape {
          version
        }
      }
      ...Refused
    }
  }
`);

/** Her shape from a measured half model: patterns are drawn from it. */
export function ShapePart({ decides, changed }: { decides: boolean; changed: () => void }) {
  const [answer, again] = useAsk(ShapeQuestion, {});
  return (
    <Section title="Her shape" id="timber-shape">
      <Asked answer={answer} what="her shape" again={again}>
        {({ hullShape }) => {
          const measured = (hullShape?.measured ?? null) as Measured | null;
          return (
            <>
              {hullShape && measured ? (
                <p>
                  {measured.by === 'half model'
                    ? `A half model at 1 to ${measured.scale}`
                    : 'Offsets at full size'}
                  , {count(measured.sections.length, 'section')}, entered by {hullShape.keptBy}.
                </p>
              ) : (
                <p className="gap">Not measured yet. Without it futtocks have no patterns.</p>
              )}
              {hullShape?.standOut.length ? (
                <ul className="plain">
                  {hullShape.standOut.map((words) => (
                    <li key={words} className="gap">
                      {words} Measure it again.
                    </li>
                  ))}
                </ul>
              ) : null}
              {decides ? (
                <details className="fold">
                  <summary>{measured ? 'Change the half model' : 'Enter a half model'}</summary>
                  <ShapeForm
                    measured={measured}
                    version={hullShape?.version ?? null}
                    done={() => {
                      again();
                      changed();
                    }}
                  />
                </details>
              ) : null}
            </>
          );
        }}
      </Asked>
    </Section>
  );
}

const fields = {
  scale: 'shape-scale',
  every: 'shape-every',
  firstAt: 'shape-first',
  sections: 'shape-sections',
};

function ShapeForm({
  measured,
  version,
  done,
}: {
  measured: Measured | null;
  version: number | null;
  done: () => void;
}) {
  const { run, busy } = useDeed(SetHullShapeDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const model = measured?.by === 'half model' ? measured : null;

  async function submit(filled: Filled) {
    const answer = await run({
      version,
      shape: {
        by: 'half model',
        scale: filled.number('scale'),
        every: filled.number('every') * 304.8,
        firstAt: filled.number('firstAt') * 304.8,
        surface: filled.text('surface'),
        sections: readSections(filled.text('sections')),
      },
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('Her shape is entered.');
    done();
  }

  return (
    <Form send={submit}>
      <Answer outcome={outcome} done="Her shape is entered." fields={fields} />
      <div className="row">
        <Field
          id="shape-scale"
          name="scale"
          inputMode="decimal"
          label="Scale, 1 to"
          defaultValue={model?.scale ?? 24}
        />
        <Field
          id="shape-every"
          name="every"
          inputMode="decimal"
          label="A section every, feet full size"
          defaultValue={model ? Math.round((model.every / 304.8) * 100) / 100 : 8}
        />
        <Field
          id="shape-first"
          name="firstAt"
          inputMode="decimal"
          label="First section aft of frame 1, feet"
          hint="Below 0 if forward of it."
          defaultValue={model ? Math.round((model.firstAt / 304.8) * 100) / 100 : 0}
        />
      </div>
      <Choice
        id="shape-surface"
        name="surface"
        label="Measured on"
        defaultValue={model?.surface ?? 'outside of planking'}
      >
        <option value="outside of planking">the outside of the planking</option>
        <option value="outside of frames">the outside of the frames</option>
      </Choice>
      <Note
        id="shape-sections"
        name="sections"
        rows={8}
        label="Sections, one a line, from forward"
        hint="On each line, from the rabbet up, height/breadth in millimetres on the model: 0/0 12/20 30/41 60/52."
        defaultValue={model ? writeSections(model.sections) : ''}
      />
      <button type="submit" className="deed" disabled={busy}>
        Enter her shape
      </button>
    </Form>
  );
}
