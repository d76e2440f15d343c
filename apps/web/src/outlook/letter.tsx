import { useState } from 'react';
import { useAsk } from '../live/ask.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Choice, Note } from '../parts/field.js';
import { Page } from '../parts/page.js';
import { PrintButton } from '../parts/print-button.js';
import { slotLetter, type LetterFacts, type Reader } from './letter-words.js';
import { OddsQuestion, type Odds } from './odds.question.js';
import { LiftSlotsQuestion, TellYard, type SlotToTell } from './slots.js';
import './outlook.css';

/** Confirm or release the slot: a draft for yard, board and insurer, to be changed before it is printed. */
export function SlotLetter() {
  const [answer, again] = useAsk(OddsQuestion, {}, 'plan');
  return (
    <Page
      title="The slot letter"
      lead={
        <p className="no-print">
          A draft from the odds of today. Read it, change it, print it. Nothing is sent.
        </p>
      }
    >
      <Asked answer={answer} what="the odds" again={again}>
        {({ outlook }) => (outlook ? <Draft odds={outlook} /> : <NoOdds />)}
      </Asked>
    </Page>
  );
}

function Draft({ odds }: { odds: Odds }) {
  const yard = useYard();
  const [reader, setReader] = useState<Reader>('yard');
  const [slots] = useAsk(LiftSlotsQuestion, {}, 'plan');
  const facts = factsOf(odds, yard, slots.data?.haulOut?.liftSlots ?? []);
  const [chosen, setDeed] = useState<'confirm' | 'release' | null>(null);
  const deed = chosen ?? (facts && !facts.gate.confirmed && facts.gateOdds < 0.5 ? 'release' : 'confirm');
  const draft = facts ? slotLetter(reader, deed, facts) : '';
  const [written, setWritten] = useState<{ from: string; text: string } | null>(null);
  if (!facts) return <NoOdds />;
  const subject = slots.data?.haulOut?.liftSlots.find(({ id }) => id === facts.gate.id);
  const text = written?.from === draft ? written.text : draft;
  return (
    <div className="letter">
      <div className="no-print">
        <Choice
          id="letter-deed"
          label="The slot"
          value={deed}
          onChange={(event) => {
            setDeed(event.target.value as 'confirm' | 'release');
          }}
        >
          <option value="confirm">{facts.gate.confirmed ? 'It is confirmed' : 'Confirm it'}</option>
          <option value="release">Release it</option>
        </Choice>
        <Choice
          id="letter-reader"
          label="Written to"
          value={reader}
          onChange={(event) => {
            setReader(event.target.value as Reader);
          }}
        >
          <option value="yard">the yard</option>
          <option value="board">the board</option>
          <option value="insurer">the insurer</option>
        </Choice>
        <Note
          id="letter-text"
          label="The letter"
          value={text}
          onChange={(event) => {
            setWritten({ from: draft, text: event.target.value });
          }}
        />
        <PrintButton />
        {subject ? <TellYard slot={subject} at="letter" /> : null}
      </div>
      <div className="print-only">
        {text.split('\n\n').map((paragraph) => (
          <p key={paragraph}>{paragraph}</p>
        ))}
      </div>
    </div>
  );
}

type Facts = LetterFacts & { gate: { id: string } };

/** About the first slot that is not given back: the odds may be of the plan before somebody did. */
function factsOf(
  odds: Odds,
  { haulOut, me, today }: ReturnType<typeof useYard>,
  slots: readonly SlotToTell[],
): Facts | null {
  const [gate, next] = odds.slots.filter(({ slot }) => slot.word?.word !== 'RELEASED');
  if (!haulOut || !gate) return null;
  const { id, on, startTime, endTime, confirmBy, extraCostCents, word } = gate.slot;
  const released = slots.filter((slot) => slot.on < on && slot.word?.word === 'RELEASED').at(-1);
  return {
    vessel: haulOut.vessel.name,
    organisation: me.organisation.name,
    signedBy: me.account.name,
    today,
    gate: {
      ...{ id, on, startTime, endTime, confirmBy },
      confirmed: word ? { on: word.givenOn, yardSays: word.yardSays ?? null } : null,
    },
    released: released?.word
      ? { on: released.on, releasedOn: released.word.givenOn, yardSays: released.word.yardSays ?? null }
      : null,
    gateOdds: gate.odds,
    gateWords: gate.words,
    fallback: next
      ? {
          on: next.slot.on,
          extraCostCents: Math.max(0, next.slot.extraCostCents - extraCostCents),
          words: next.words,
        }
      : null,
    likelyOn: odds.likelyOn ?? null,
  };
}

export function NoOdds() {
  return (
    <Nothing>
      <p>
        There are no odds yet. They follow each plan within a minute; while no plan exists there are none.
      </p>
    </Nothing>
  );
}
