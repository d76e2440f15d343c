import { useState } from 'react';
import { useClient } from 'urql';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { sayFault, useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Field, Tick } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Page, Section } from '../parts/page.js';
import { count } from '../words/amounts.js';
import { MoveClock } from './move-clock.js';

const ImportYardDeed = graphql(`
  mutation ImportYard($document: JSONDocument!, $replace: Boolean) {
    importYard(document: $document, replace: $replace) {
      __typename
      ... on YardFaults {
        faults {
          path
          message
          wouldBeRight
        }
      }
      ...Refused
    }
  }
`);

const YardDocumentQuestion = graphql(`
  query YardDocument {
    yardDocument
  }
`);

interface FaultInFile {
  path: string;
  message: string;
  wouldBeRight?: string | null;
}

/** The whole yard in one file: bring it in, take it out. */
export function YardFile({ changed }: { changed: () => void }) {
  const { me, haulOut } = useYard();
  return (
    <Page
      title="Yard file"
      lead={
        <p>
          Vessel, haul-out, work, turnouts, crew, the hours book, permits and all that is written down, in one
          file of the format ribband-yard/1. Passwords and secret addresses are not in it.
        </p>
      }
    >
      <Section title="Bring in a yard" id="bring-in">
        <BringIn hasYard={haulOut !== null} changed={changed} />
      </Section>
      {haulOut ? (
        <Section title="Take out this yard" id="take-out">
          <TakeOut vessel={haulOut.vessel.name} />
        </Section>
      ) : null}
      {me.organisation.isDemo && haulOut ? (
        <Section title="The demo yard’s clock" id="clock">
          <MoveClock moved={changed} />
        </Section>
      ) : null}
    </Page>
  );
}

function BringIn({ hasYard, changed }: { hasYard: boolean; changed: () => void }) {
  const { run, busy } = useDeed(ImportYardDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const [faults, setFaults] = useState<FaultInFile[]>([]);
  const [unread, setUnread] = useState<string | null>(null);

  async function submit(filled: Filled) {
    const read = await readDocument(filled.file('file'));
    setOutcome(null);
    setFaults([]);
    setUnread(read.wrong);
    if (read.wrong) return;
    const answer = await run({ document: read.document, replace: filled.ticked('replace') });
    if (answer.kind === 'done' && answer.done.__typename === 'YardFaults') {
      setFaults(answer.done.faults);
      say(`${count(answer.done.faults.length, 'fault')} in the file. Nothing was brought in.`);
      return;
    }
    setOutcome(answer);
    if (answer.kind === 'done') changed();
  }

  return (
    <Form send={submit}>
      <Answer
        outcome={outcome}
        done="The yard is brought in. Its plan is being reckoned."
        fields={{ document: 'yard-file', replace: 'yard-replace' }}
      />
      {faults.length ? <Faults faults={faults} /> : null}
      <Field
        id="yard-file"
        name="file"
        type="file"
        accept="application/json,.json"
        label="Yard file"
        hint="All of it is brought in, or nothing."
        wrong={unread}
      />
      {hasYard ? (
        <Tick
          id="yard-replace"
          name="replace"
          label="Put it in the place of the yard that is here"
          hint="Without this, a yard that is already here is left alone."
        />
      ) : null}
      <button type="submit" className="deed" disabled={busy}>
        {busy ? 'Reading…' : 'Bring it in'}
      </button>
    </Form>
  );
}

async function readDocument(file: File | null): Promise<{ document: unknown; wrong: string | null }> {
  if (!file) return { document: null, wrong: 'Choose a file first.' };
  try {
    return { document: JSON.parse(await file.text()) as unknown, wrong: null };
  } catch (error) {
    return {
      document: null,
      wrong: `This file is not JSON: ${error instanceof Error ? error.message : String(error)}`,
    };
  }
}

function Faults({ faults }: { faults: FaultInFile[] }) {
  return (
    <div className="answer answer-no" role="alert">
      <p className="answer-what">{count(faults.length, 'fault')} in the file. Nothing was brought in.</p>
      <ul className="file-faults">
        {faults.map((fault) => (
          <li key={fault.path + fault.message}>
            <code>{fault.path}</code> {fault.message}{' '}
            {fault.wouldBeRight ? <em>{fault.wouldBeRight}</em> : null}
          </li>
        ))}
      </ul>
    </div>
  );
}

function TakeOut({ vessel }: { vessel: string }) {
  const client = useClient();
  const [wrong, setWrong] = useState<string | null>(null);
  async function takeOut() {
    const result = await client
      .query(YardDocumentQuestion, {}, { requestPolicy: 'network-only' })
      .toPromise();
    setWrong(result.error ? sayFault(result.error) : null);
    if (!result.data) return;
    const file = new Blob([JSON.stringify(result.data.yardDocument, null, 2)], { type: 'application/json' });
    const link = document.createElement('a');
    link.href = URL.createObjectURL(file);
    link.download = `${vessel.toLowerCase().replaceAll(/\W+/g, '-')}.json`;
    link.click();
    URL.revokeObjectURL(link.href);
  }
  return (
    <>
      <p>What you take out can be brought in again as it is.</p>
      {wrong ? (
        <p className="answer answer-no" role="alert">
          {wrong}
        </p>
      ) : null}
      <button type="button" className="quiet" onClick={() => void takeOut()}>
        Take out the yard file
      </button>
    </>
  );
}
