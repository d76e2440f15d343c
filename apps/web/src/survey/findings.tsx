import { useState } from 'react';
import { useYard } from '../live/yard.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { sayDay } from '../words/dates.js';
import { PlankForm } from './plank-finding.js';
import { type AddFindingProps, Seen, seen } from './seen.js';
import type { Finding, FramesFinding, Survey } from './survey-document.js';
import { readPieces, sayCause, sayCondition, sayWhere } from './survey-words.js';

/** What was found, line by line; a later line overrules an earlier one of the same piece. */
export function Findings({
  survey,
  mayChange,
  remove,
}: {
  survey: Survey;
  mayChange: boolean;
  remove: (at: number) => void;
}) {
  if (survey.findings.length === 0) return <p>Nothing has been entered yet.</p>;
  return (
    <ol className="findings">
      {survey.findings.map((finding, at) => {
        const cause = sayCause(finding, survey.causes);
        const where = sayWhere(finding);
        return (
          <li key={`${String(at)} ${where}`}>
            <p>
              <strong>{where}</strong>: {sayCondition(finding)}
              {cause ? `; ${cause}` : ''}
            </p>
            <p className="pencil">
              {finding.by}, {sayDay(finding.on)}
              {finding.note ? `. ${finding.note}` : ''}
            </p>
            {mayChange ? (
              <button
                type="button"
                className="quiet"
                aria-label={`Take this line out: ${where}`}
                onClick={() => {
                  remove(at);
                }}
              >
                Take this line out
              </button>
            ) : null}
          </li>
        );
      })}
    </ol>
  );
}

const conditions: [Finding['condition'], string][] = [
  ['sound', 'sound'],
  ['doubtful', 'doubtful: look again when open'],
  ['renew', 'renew'],
  ['scarf', 'scarf here'],
  ['new joint', 'new joint here'],
  ['sister', 'sister beside it'],
];

/** One line more: a range of frames with their pieces, or a plank. */
export function AddFinding(props: AddFindingProps) {
  const [on, setOn] = useState<'frames' | 'plank'>('frames');
  return (
    <>
      <Choice
        id="finding-on-what"
        label="Found on"
        value={on}
        onChange={(event) => {
          setOn(event.target.value as 'frames' | 'plank');
        }}
      >
        <option value="frames">frames</option>
        <option value="plank">a plank, or the ceiling</option>
      </Choice>
      {on === 'frames' ? <FramesForm {...props} /> : <PlankForm {...props} />}
    </>
  );
}

function FramesForm({ survey, add }: AddFindingProps) {
  const { me } = useYard();
  const [condition, setCondition] = useState<Finding['condition']>('renew');
  const [wrong, setWrong] = useState<{ pieces?: string; frames?: string } | null>(null);

  function submit(filled: Filled): Promise<void> {
    const pieces = readPieces(filled.text('pieces'));
    const first = filled.number('first');
    const last = filled.text('last') === '' ? first : filled.number('last');
    if (!pieces || !(first >= 1) || !(last >= first)) {
      setWrong({
        ...(pieces ? {} : { pieces: 'Numbers of futtocks such as 3, 4; the floor is 0.' }),
        ...(first >= 1 && last >= first ? {} : { frames: 'The first frame, from 1.' }),
      });
      return Promise.resolve();
    }
    setWrong(null);
    const cut =
      condition === 'new joint' || condition === 'scarf'
        ? {
            ...(condition === 'scarf' ? { scarf: filled.text('scarf') } : {}),
            at: filled.number('at'),
            part: filled.text('part') as 'above' | 'below',
            why: filled.text('why'),
            decidedBy: me.account.name,
          }
        : {};
    add({
      frames: [first, last],
      side: filled.text('side') as FramesFinding['side'],
      pieces,
      condition,
      ...seen(filled),
      ...cut,
    });
    return Promise.resolve();
  }

  return (
    <Form send={submit} className="finding-form">
      <Field id="finding-first" name="first" label="From frame" inputMode="numeric" wrong={wrong?.frames} />
      <Field id="finding-last" name="last" label="To frame" inputMode="numeric" hint="Empty for one frame." />
      <Choice id="finding-side" name="side" label="Side" defaultValue="starboard">
        <option value="starboard">starboard</option>
        <option value="port">port</option>
      </Choice>
      <Field
        id="finding-pieces"
        name="pieces"
        label="Futtocks"
        hint="Such as 3, 4; the floor is 0."
        wrong={wrong?.pieces}
      />
      <Choice
        id="finding-condition"
        name="condition"
        label="What it is"
        value={condition}
        onChange={(event) => {
          setCondition(event.target.value as Finding['condition']);
        }}
      >
        {conditions.map(([value, label]) => (
          <option key={value} value={value}>
            {label}
          </option>
        ))}
      </Choice>
      {condition === 'scarf' ? (
        <Choice
          id="finding-scarf"
          name="scarf"
          label="What kind of scarf"
          hint="Its length follows from the depth of the frame there."
          defaultValue="glued"
        >
          <option value="glued">glued, 8 to 1</option>
          <option value="glued, highly loaded">glued where highly loaded, 12 to 1</option>
          <option value="bolted, keel type">bolted, 6 times the depth</option>
        </Choice>
      ) : null}
      {condition === 'new joint' || condition === 'scarf' ? (
        <>
          <Field id="finding-at" name="at" label="Cut at, in strakes from the rabbet" inputMode="decimal" />
          <Choice id="finding-part" name="part" label="What comes out" defaultValue="above">
            <option value="above">the part above</option>
            <option value="below">the part below</option>
          </Choice>
          <Field id="finding-why" name="why" label="Why there" />
        </>
      ) : null}
      <Seen survey={survey} />
    </Form>
  );
}
