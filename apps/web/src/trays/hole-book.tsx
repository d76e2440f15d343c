import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { GradedHoleInput } from '../gql/graphql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { count } from '../words/amounts.js';
import type { Hole, Tray } from './trays.question.js';

const GradeHolesDeed = graphql(`
  mutation GradeHoles($trayId: ID!, $holes: [GradedHoleInput!]!) {
    enterTray(trayId: $trayId, said: { holes: $holes }) {
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

/** Which hole each saved fastening came from, how both were graded, and what is to be done when it goes back. */
export function HoleBook({ tray, entered }: { tray: Tray; entered: () => void }) {
  const frames = [...new Set(tray.holes.map((hole) => hole.frame))];
  const { graded, newHoles, inNewWood } = tray.newHoles;
  return (
    <>
      <p>
        {graded
          ? `${graded} of ${count(tray.holes.length, 'hole')} graded: ${count(newHoles, 'new hole')} in kept timber${
              inNewWood ? `, ${inNewWood} of them because the frame behind is new` : ''
            }.`
          : 'No hole is graded yet. A sound nail back in its own sound hole leaves no new hole in a kept timber.'}
      </p>
      <ul className="plain hole-frames">
        {frames.map((frame) => (
          <FrameHoles
            key={frame}
            frame={frame}
            tray={tray}
            holes={tray.holes.filter((hole) => hole.frame === frame)}
            entered={entered}
          />
        ))}
      </ul>
    </>
  );
}

function FrameHoles({
  frame,
  tray,
  holes,
  entered,
}: {
  frame: number;
  tray: Tray;
  holes: Hole[];
  entered: () => void;
}) {
  const open = holes.filter((hole) => !hole.nail);
  return (
    <li>
      <details className="fold">
        <summary>
          Frame {frame}: {open.length ? `${open.length} of ${holes.length} to grade` : 'all graded'}
        </summary>
        {holes
          .filter((hole) => hole.says)
          .map((hole) => (
            <p key={hole.key} className="hole-done">
              {placeIn(hole)}: {hole.nail === 'SOUND' ? 'nail sound' : 'no sound nail'}, hole{' '}
              {hole.hole === 'SOUND' ? 'sound' : `enlarged, plug ${(hole.plugTenths ?? 0) / 10} mm`}.{' '}
              {hole.says}.
            </p>
          ))}
        {open.length ? <GradeFrame tray={tray} holes={open} entered={entered} /> : null}
      </details>
    </li>
  );
}

/** "forward half, nail 1 from below": what tells it from the others of its frame. */
const placeIn = (hole: Hole): string => hole.name.split(', ').slice(2).join(', ');

function GradeFrame({ tray, holes, entered }: { tray: Tray; holes: Hole[]; entered: () => void }) {
  const { run, busy } = useDeed(GradeHolesDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const first = holes[0]?.key ?? '';

  async function submit(filled: Filled) {
    const graded: GradedHoleInput[] = holes.flatMap((hole) => {
      const nail = filled.text(`nail ${hole.key}`);
      if (!nail) return [];
      const isEnlarged = filled.text(`hole ${hole.key}`) === 'ENLARGED';
      return [
        {
          key: hole.key,
          nail: nail as GradedHoleInput['nail'],
          hole: isEnlarged ? 'ENLARGED' : 'SOUND',
          plugTenths: isEnlarged ? Math.round(filled.number('plug') * 10) : null,
        },
      ];
    });
    const answer = await run({ trayId: tray.id, holes: graded });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('Graded.');
    entered();
  }

  return (
    <Form send={submit}>
      <Answer outcome={outcome} done="Graded." fields={{ holes: `nail-${first}` }} />
      {holes.map((hole) => (
        <fieldset key={hole.key} className="hole">
          <legend>
            {placeIn(hole)}
            {hole.inNewWood ? ' (new frame: it gets a new hole there)' : ''}
          </legend>
          <div className="side-by-side">
            <Choice id={`nail-${hole.key}`} name={`nail ${hole.key}`} label="Nail" defaultValue="">
              <option value="">not yet</option>
              <option value="SOUND">sound</option>
              <option value="SCRAP">scrap</option>
              <option value="NONE">none saved</option>
            </Choice>
            <Choice id={`hole-${hole.key}`} name={`hole ${hole.key}`} label="Hole" defaultValue="SOUND">
              <option value="SOUND">sound</option>
              <option value="ENLARGED">enlarged: plug it</option>
            </Choice>
          </div>
        </fieldset>
      ))}
      <Field
        id={`plug-${first}`}
        name="plug"
        type="number"
        inputMode="decimal"
        min={1}
        max={100}
        step={0.5}
        defaultValue={16}
        label="Plug for those that are enlarged, in millimetres across"
      />
      <button type="submit" className="quiet" disabled={busy}>
        Write it into the hole book
      </button>
    </Form>
  );
}
