import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Field } from '../parts/field.js';
import { Page, Section } from '../parts/page.js';
import { capital, count } from '../words/amounts.js';
import { sayBalance, sayTray } from './balance-words.js';
import { Care } from './care.js';
import { Lots } from './lots.js';
import { TraysQuestion, type Kind, type ListedTray } from './trays.question.js';
import './trays.css';

/** All trays, and how the fastenings of each kind stand. */
export function Trays() {
  const { me } = useYard();
  const [answer, again] = useAsk(TraysQuestion, {}, 'plan');
  const isStaff = me.role !== 'VOLUNTEER';
  return (
    <Page
      title="Trays"
      lead={
        <p>Every fastening lies in the tray of its plank until it goes back, and nothing is lost between.</p>
      }
    >
      <Asked answer={answer} what="the trays" again={again}>
        {({ trays, fasteningKinds, lots }) => (
          <>
            {trays.length ? (
              <TrayList trays={trays} />
            ) : (
              <Nothing>
                <p>
                  No tray is set up yet. {isStaff ? '' : 'The shipwright or the coordinator sets them up.'}
                </p>
              </Nothing>
            )}
            {isStaff ? <SetUp many={trays.length} done={again} /> : null}
            {fasteningKinds.map((kind) => (
              <KindStanding key={kind.fastening} kind={kind} />
            ))}
            {trays.length && isStaff ? (
              <Section title="What was bought" id="lots">
                <Lots lots={lots} kinds={fasteningKinds.map((kind) => kind.fastening)} added={again} />
              </Section>
            ) : null}
            {trays.length && isStaff ? <Care kinds={fasteningKinds} chosen={again} /> : null}
          </>
        )}
      </Asked>
    </Page>
  );
}

function TrayList({ trays }: { trays: ListedTray[] }) {
  const [words, setWords] = useState('');
  const sought = words.toLowerCase().split(/\s+/);
  const kept = trays.filter((tray) => {
    const text = `${tray.name} ${tray.place} ${tray.fastening}`.toLowerCase();
    return sought.every((word) => text.includes(word));
  });
  return (
    <Section title="Which tray?" id="which">
      <Field
        id="tray-words"
        label="Find"
        hint="S9A, strake 9, bolts…"
        value={words}
        onChange={(event) => {
          setWords(event.target.value);
        }}
      />
      <p role="status">
        {count(kept.length, 'tray')}
        {kept.length < trays.length ? ` of ${trays.length}` : ''}.
      </p>
      <ul className="plain tray-list">
        {kept.map((tray) => (
          <li key={tray.id}>
            <a href={to('trays', tray.id)}>
              <span className="tray-name">{tray.name}</span> {capital(tray.place)}, {tray.fastening}
            </a>
            <span className="tray-how">{sayTray(tray.balance, tray.inPlace)}</span>
            {tray.wanting
              .filter((line) => line.startsWith('Counted'))
              .map((line) => (
                <span key={line} className="gap">
                  {line}
                </span>
              ))}
          </li>
        ))}
      </ul>
    </Section>
  );
}

function KindStanding({ kind }: { kind: Kind }) {
  return (
    <Section title={capital(kind.fastening)} id={`kind-${kind.fastening.replaceAll(' ', '-')}`}>
      <ul className="plain">
        {sayBalance(kind.balance).map((line) => (
          <li key={line}>{line}</li>
        ))}
        <li>
          {kind.toDrive} are to be driven in all
          {kind.inLots ? `; ${kind.inLots} bought ones lie in no tray yet` : ''}. By what was graded so far{' '}
          <span className="pencil">{Math.round(kind.scrapShare * 100)} of 100</span> are scrap.
        </li>
      </ul>
      {kind.wanting.map((line) => (
        <p key={line} className="gap">
          {line}
        </p>
      ))}
      {kind.planned ? <p>{kind.planned.orderWords}</p> : null}
    </Section>
  );
}

const SetUpTraysDeed = graphql(`
  mutation SetUpTrays {
    setUpTrays {
      __typename
      ... on TraysPayload {
        trayIds
      }
      ...Refused
    }
  }
`);

function SetUp({ many, done }: { many: number; done: () => void }) {
  const { run, busy } = useDeed(SetUpTraysDeed);
  const [outcome, setOutcome] = useState<Outcome<{ trayIds: string[] }> | null>(null);
  const made = outcome?.kind === 'done' ? outcome.done.trayIds.length : 0;
  return (
    <div>
      <Answer
        outcome={outcome}
        done={made ? `${count(made, 'tray')} set up.` : 'Everything that is drawn has its tray already.'}
      />
      <button
        type="button"
        className={many ? 'quiet' : 'deed'}
        disabled={busy}
        onClick={() => {
          void run({}).then((answer) => {
            setOutcome(answer);
            done();
          });
        }}
      >
        {busy ? 'Setting up…' : 'Set up a tray for all that the work draws'}
      </button>
    </div>
  );
}
