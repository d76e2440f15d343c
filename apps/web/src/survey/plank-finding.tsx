import { useState } from 'react';
import { useClient } from 'urql';
import { graphql } from '../gql/gql.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { sayFault } from '../live/deed.js';
import { type AddFindingProps, Seen, seen } from './seen.js';
import type { PlankFinding } from './survey-document.js';

const ReplacementQuestion = graphql(`
  query ReplacementFaults($plank: ID!, $firstFrame: Int!, $lastFrame: Int!) {
    replacementFaults(plank: $plank, firstFrame: $firstFrame, lastFrame: $lastFrame)
  }
`);

const isCount = (number: number): boolean => Number.isInteger(number) && number >= 1;

/** What was found on a plank; where only a part of it is renewed, the rule for replacement planks is asked first. */
export function PlankForm({ survey, add }: AddFindingProps) {
  const client = useClient();
  const [wrong, setWrong] = useState<{ strake?: boolean; plank?: boolean; part?: boolean }>({});
  const [skin, setSkin] = useState('strake');
  const [condition, setCondition] = useState<PlankFinding['condition']>('renew');
  const [refused, setRefused] = useState<string[]>([]);
  const mayBePart = condition === 'renew' && skin === 'strake';

  async function submit(filled: Filled): Promise<void> {
    const [strake, plank] = [filled.number('strake'), filled.number('plank')];
    const isWhole = !mayBePart || (filled.text('from') === '' && filled.text('to') === '');
    const part: [number, number] = [filled.number('from'), filled.number('to')];
    const missing = {
      strake: !isCount(strake),
      plank: !isCount(plank),
      part: !isWhole && !(isCount(part[0]) && isCount(part[1]) && part[0] <= part[1]),
    };
    setWrong(missing);
    setRefused([]);
    if (missing.strake || missing.plank || missing.part) return;
    const key = `${skin}-${strake}-plank-${plank}-${filled.text('side')}`;
    if (!isWhole) {
      const [firstFrame, lastFrame] = part;
      const answer = await client
        .query(ReplacementQuestion, { plank: key, firstFrame, lastFrame }, { requestPolicy: 'network-only' })
        .toPromise();
      const faults = answer.data?.replacementFaults ?? [answer.error ? sayFault(answer.error) : ''];
      setRefused(faults);
      if (faults.length > 0) return;
    }
    add({ plank: key, condition, ...(isWhole ? {} : { part }), ...seen(filled) });
  }

  return (
    <Form send={submit} className="finding-form">
      <Choice
        id="plank-skin"
        name="skin"
        label="Skin"
        value={skin}
        onChange={(event) => {
          setSkin(event.target.value);
        }}
      >
        <option value="strake">planking</option>
        <option value="ceiling">ceiling inside</option>
      </Choice>
      <Choice id="plank-side" name="side" label="Side" defaultValue="starboard">
        <option value="starboard">starboard</option>
        <option value="port">port</option>
      </Choice>
      <Field
        id="plank-strake"
        name="strake"
        label="Strake"
        inputMode="numeric"
        hint="Counted from the keel."
        wrong={wrong.strake ? 'A strake, from 1.' : null}
      />
      <Field
        id="plank-number"
        name="plank"
        label="Plank"
        inputMode="numeric"
        hint="Its number in the strake, from forward."
        wrong={wrong.plank ? 'A plank, from 1.' : null}
      />
      <Choice
        id="plank-condition"
        name="condition"
        label="What it is"
        value={condition}
        onChange={(event) => {
          setCondition(event.target.value as PlankFinding['condition']);
        }}
      >
        <option value="sound">sound</option>
        <option value="doubtful">doubtful: look again when open</option>
        <option value="renew">renew</option>
      </Choice>
      {mayBePart ? (
        <>
          <Field
            id="plank-part-from"
            name="from"
            label="New wood from frame"
            inputMode="numeric"
            hint="Empty: the whole plank is renewed."
            wrong={wrong.part ? 'Two frames, the smaller first.' : null}
          />
          <Field
            id="plank-part-to"
            name="to"
            label="New wood to frame"
            inputMode="numeric"
            hint="Hours are reckoned for the whole plank all the same."
          />
        </>
      ) : null}
      {refused.length > 0 ? (
        <div role="alert">
          <p>This part can’t be renewed by itself:</p>
          <ul className="plain">
            {refused.map((says) => (
              <li key={says}>{says}</li>
            ))}
          </ul>
        </div>
      ) : null}
      <Seen survey={survey} />
    </Form>
  );
}
