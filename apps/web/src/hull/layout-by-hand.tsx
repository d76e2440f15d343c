import { useState } from 'react';
import { useClient } from 'urql';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { sayFault, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { count } from '../words/amounts.js';
import { readBays } from './read-bays.js';
import type { PlankSide, Proposal } from './plank-side.js';

const FaultsQuestion = graphql(`
  query LayoutFaults($side: Side!, $butts: [PlankButtInput!]!) {
    layoutFaults(side: $side, butts: $butts) {
      says
      guide
    }
  }
`);

/** A layout that the shipwright thinks out: butts strake by strake, held against the rules before it is chosen. */
export function LayoutByHand({ side, checked }: { side: PlankSide; checked: (layout: Proposal) => void }) {
  const client = useClient();
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const [wrong, setWrong] = useState<number[]>([]);
  const name = side.side.toLowerCase();
  const standing = side.choice?.butts ?? side.butts;

  async function check(filled: Filled) {
    const typed = side.runs.map(({ strake }) => ({
      strake,
      bays: readBays(filled.text(`strake-${strake}`)),
    }));
    const unread = typed.flatMap(({ strake, bays }) => (bays ? [] : [strake]));
    setWrong(unread);
    if (unread.length) return;
    const butts = typed.flatMap(({ strake, bays }) => (bays ?? []).map((bay) => ({ strake, bay })));
    const answer = await client
      .query(FaultsQuestion, { side: side.side, butts }, { requestPolicy: 'network-only' })
      .toPromise();
    if (!answer.data) {
      setOutcome(answer.error ? { kind: 'fault', words: sayFault(answer.error) } : null);
      return;
    }
    setOutcome(null);
    const faults = answer.data.layoutFaults;
    const broken = faults.filter((fault) => !fault.guide).length;
    const says = broken
      ? `This layout breaks ${count(broken, 'rule')}: choosing it all the same wants the reason to say why.`
      : 'This layout keeps every rule.';
    say(says);
    checked({ says, butts, faults });
  }

  return (
    <details>
      <summary>Lay the butts out by hand, {name}</summary>
      <Answer outcome={outcome} done="" />
      <Form send={check}>
        <p className="hint">
          A butt lies between two frames: 14 stands for the bay between frames 14 and 15. Several in one
          strake with commas between.
        </p>
        <div className="row">
          {side.runs.map((run) => (
            <Field
              key={run.strake}
              id={`butts-${name}-${run.strake}`}
              name={`strake-${run.strake}`}
              label={`Strake ${run.strake}, open over frames ${run.firstFrame} to ${run.lastFrame}`}
              inputMode="text"
              defaultValue={standing
                .filter(
                  ({ strake, bay }) => strake === run.strake && bay >= run.firstFrame && bay < run.lastFrame,
                )
                .map(({ bay }) => bay)
                .join(', ')}
              wrong={wrong.includes(run.strake) ? 'Numbers of bays, such as 14, 22.' : null}
            />
          ))}
        </div>
        <button type="submit" className="quiet">
          Hold it against the rules
        </button>
      </Form>
    </details>
  );
}
