import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { TrayLineKind } from '../gql/graphql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { capital } from '../words/amounts.js';
import { dayOf, sayShortDay } from '../words/dates.js';
import type { Entry, Tray } from './trays.question.js';

const CorrectTrayDeed = graphql(`
  mutation CorrectTray($entryId: ID!, $said: TrayWordsInput!, $reason: String!) {
    correctTray(entryId: $entryId, said: $said, reason: $reason) {
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

/** Which input each kind of line is corrected in; moves are moved back instead. */
const inputs = {
  DRAWN: ['drawn', 'Drawn whole'],
  PULLED_THROUGH: ['pulledThrough', 'Pulled through'],
  CUT: ['cut', 'Heads off'],
  PUNCHED: ['punched', 'Punched out'],
  BORED_OUT: ['boredOut', 'Bored out'],
  LEFT_IN_PLACE: ['leftInPlace', 'Left in place'],
  SOUND: ['sound', 'Sound'],
  SCRAPPED: ['scrapped', 'Scrap'],
  LOST: ['lost', 'Lost'],
  BOUGHT: ['bought', 'Put in from a lot'],
  DRIVEN: ['driven', 'Driven'],
} as const satisfies Partial<Record<TrayLineKind, readonly [string, string]>>;
type Corrected = keyof typeof inputs;

const together: Corrected[][] = [
  ['DRAWN', 'PULLED_THROUGH', 'CUT'],
  ['PUNCHED', 'BORED_OUT', 'LEFT_IN_PLACE'],
  ['SOUND', 'SCRAPPED', 'LOST'],
  ['BOUGHT'],
  ['DRIVEN'],
];

/** What was said of the tray, newest first; wrong entries are replaced and stay readable. */
export function TrayEntries({ tray, changed }: { tray: Tray; changed: () => void }) {
  const { timeZone, today } = useYard();
  if (!tray.entries.length) return <p>Nothing has been entered yet.</p>;
  return (
    <ul className="plain tray-entries">
      {tray.entries.map((entry) => (
        <li key={entry.id} className={entry.correctedById ? 'replaced' : undefined}>
          <span className="pencil">{sayShortDay(dayOf(entry.at, timeZone), today)}</span>{' '}
          {entry.correctedById ? <s>{capital(entry.words)}</s> : capital(entry.words)}
          {typeof entry.frame === 'number' ? `, at frame ${entry.frame}` : ''}.{' '}
          {entry.note ? `${entry.note} ` : ''}
          {entry.reason ? <em>Corrected: {entry.reason}. </em> : null}
          {entry.by ? <span className="pencil">{entry.by}</span> : null}
          {entry.correctedById ? <span> Replaced.</span> : null}
          {entry.mayCorrect && entry.lines.length && !entry.holes ? (
            <Correct entry={entry} changed={changed} />
          ) : null}
        </li>
      ))}
    </ul>
  );
}

function Correct({ entry, changed }: { entry: Entry; changed: () => void }) {
  const { run, busy } = useDeed(CorrectTrayDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const said = new Map(entry.lines.map((line) => [line.kind, line]));
  const kinds = together.filter((set) => set.some((kind) => said.has(kind))).flat();
  const id = (name: string) => `right-${name}-${entry.id}`;
  const reasonOf = (kind: TrayLineKind) => said.get(kind)?.reason ?? null;

  async function submit(filled: Filled) {
    const counts = Object.fromEntries(kinds.map((kind) => [inputs[kind][0], filled.number(inputs[kind][0])]));
    const answer = await run({
      entryId: entry.id,
      said: {
        ...counts,
        frame: entry.frame ?? null,
        counted: entry.counted ?? null,
        lotId: counts['bought'] ? (entry.lotId ?? null) : null,
        leftReason: reasonOf('LEFT_IN_PLACE') ?? filled.textOrNull('why'),
        lostReason: reasonOf('LOST') ?? filled.textOrNull('why'),
        note: entry.note ?? null,
      },
      reason: filled.text('why'),
    });
    setOutcome(answer);
    if (answer.kind === 'done') changed();
  }

  return (
    <details className="fold">
      <summary>Correct it</summary>
      <Form send={submit}>
        <Answer
          outcome={outcome}
          done="Corrected."
          fields={{
            ...Object.fromEntries(kinds.map((kind) => [inputs[kind][0], id(inputs[kind][0])])),
            reason: id('why'),
          }}
        />
        <div className="side-by-side">
          {kinds.map((kind) => (
            <Field
              key={kind}
              id={id(inputs[kind][0])}
              name={inputs[kind][0]}
              type="number"
              inputMode="numeric"
              min={0}
              label={inputs[kind][1]}
              defaultValue={said.get(kind)?.count ?? 0}
            />
          ))}
        </div>
        <Field id={id('why')} name="why" label="Why it was wrong" maxLength={500} />
        <button type="submit" className="quiet" disabled={busy}>
          Correct the entry
        </button>
      </Form>
    </details>
  );
}
