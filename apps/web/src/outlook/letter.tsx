import { useState } from 'react';
import { useAsk } from '../live/ask.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Choice, Note } from '../parts/field.js';
import { Page } from '../parts/page.js';
import { PrintButton } from '../parts/print-button.js';
import { slotLetter, type LetterFacts, type Reader } from './letter-words.js';
import { OddsQuestion, type Odds } from './odds.question.js';
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
  const [deed, setDeed] = useState<'confirm' | 'release'>(odds.gateOdds >= 0.5 ? 'confirm' : 'release');
  const facts = factsOf(odds, yard);
  const draft = facts ? slotLetter(reader, deed, facts) : '';
  const [written, setWritten] = useState<{ from: string; text: string } | null>(null);
  if (!facts) return <NoOdds />;
  const text = written?.from === draft ? written.text : draft;
  return (
    <div className="letter">
      <div className="no-print">
        <Choice
          id="letter-deed"
          label="The slot"
          value={deed}
          onChange={(event) => {
            setDeed(event.target.value as typeof deed);
          }}
        >
          <option value="confirm">Confirm it</option>
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
      </div>
      <div className="print-only">
        {text.split('\n\n').map((paragraph) => (
          <p key={paragraph}>{paragraph}</p>
        ))}
      </div>
    </div>
  );
}

function factsOf(odds: Odds, { haulOut, me, today }: ReturnType<typeof useYard>): LetterFacts | null {
  if (!haulOut) return null;
  const ofKind = (kind: string) => odds.slots.find(({ slot }) => slot.kind === kind);
  const gate = ofKind('GATE');
  const fallback = ofKind('FALLBACK');
  if (!gate) return null;
  return {
    vessel: haulOut.vessel.name,
    organisation: me.organisation.name,
    signedBy: me.account.name,
    today,
    gate: haulOut.gate,
    gateOdds: gate.odds,
    gateWords: gate.words,
    fallback: fallback
      ? { on: fallback.slot.on, extraCostCents: fallback.slot.extraCostCents, words: fallback.words }
      : null,
    likelyOn: odds.likelyOn ?? null,
  };
}

export function NoOdds() {
  return (
    <Nothing>
      <p>The odds are not reckoned yet. They follow each plan within a minute.</p>
    </Nothing>
  );
}
