import { useState } from 'react';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { Answer } from '../parts/answer.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Field } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import { Page } from '../parts/page.js';
import { PumpLogNow } from '../pump-log/pump-log.js';
import { count } from '../words/amounts.js';
import { LayOn } from './lay-on.js';
import { type Came, PostingCame, proposalKey, Roster } from './roster.js';
import { CallOffWatchesDeed, PostWatchesDeed, WatchRosterQuestion } from './watches.question.js';
import '../week/week.css';

/** Nobody is asked to more watches than this until the coordinator says otherwise. */
const usualMost = 3;

/** Watches afloat: laid on, rostered, posted, called off. */
export function Watches() {
  const [most, setMost] = useState(usualMost);
  // What came of a posting stays while the form starts anew.
  const [came, setCame] = useState<Came>({ outcome: null, turnedAway: [] });
  // Once all are called off the form for it is gone: what came of it stays.
  const [off, setOff] = useState<Outcome<unknown> | null>(null);
  const { run } = useDeed(PostWatchesDeed);
  const [answer, again] = useAsk(WatchRosterQuestion, { mostEach: most }, 'roster');
  return (
    <Page
      title="Watches afloat"
      lead={
        <p>
          After launching she is watched round the clock, two or more together, the pumps looked at and
          written down.
        </p>
      }
    >
      <p>
        <a href={to('week')}>Back to the week</a>
      </p>
      <PumpLogNow />
      <LayOn changed={again} />
      <Asked answer={answer} what="the watches" again={again}>
        {({ watchProposal, safetyNotice }) =>
          watchProposal.length ? (
            <>
              <Field
                id="watch-most"
                label="Most watches that anybody is asked to"
                type="number"
                min={1}
                max={12}
                value={most}
                onChange={(event) => {
                  const asked = event.target.valueAsNumber;
                  if (asked >= 1 && asked <= 12) setMost(asked);
                }}
              />
              <PostingCame came={came} />
              <Roster
                key={proposalKey(watchProposal)}
                watches={watchProposal}
                summary={`${count(watchProposal.length, 'watch', 'watches')}, proposed by who said that they can come, rested between two watches.`}
                press="Post these watches"
                said="The watches are posted."
                post={(places) => run({ places })}
                posted={(posted) => {
                  setCame(posted);
                  again();
                }}
              />
              <CallAllOff
                came={(outcome) => {
                  setOff(outcome);
                  again();
                }}
              />
              <p className="notice">{safetyNotice}</p>
            </>
          ) : (
            <Nothing>
              <Answer outcome={off} done={calledOff} />
              <p>No watch is laid on.</p>
            </Nothing>
          )
        }
      </Asked>
    </Page>
  );
}

const calledOff = 'The watches are called off, and their people are told.';

/** @param came told a yes: the page then has no watch, nor this form */
function CallAllOff({ came }: { came: (outcome: Outcome<unknown>) => void }) {
  const { run } = useDeed(CallOffWatchesDeed);
  return (
    <FoldForm
      summary="Call all watches off that have not begun"
      press="Call them off"
      done={calledOff}
      fields={{ reason: 'watches-reason' }}
      changed={() => undefined}
      send={async (filled) => {
        const outcome = await run({ reason: filled.text('reason') });
        if (outcome.kind === 'done') came(outcome);
        return outcome;
      }}
    >
      <Field id="watches-reason" name="reason" label="Why" hint="Their people read this." />
    </FoldForm>
  );
}
