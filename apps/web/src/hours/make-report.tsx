import { useState } from 'react';
import { useClient } from 'urql';
import { graphql } from '../gql/gql.js';
import { sayFault, useDeed } from '../live/deed.js';
import { go, to } from '../live/route.js';
import { Answer } from '../parts/answer.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Said } from './report.js';
import type { ReportSaid } from './report-said.js';
import { useOutcome } from './use-outcome.js';

const DraftQuestion = graphql(`
  query GrantReportDraft($grantId: ID!, $from: LocalDate!, $to: LocalDate!) {
    grantReportDraft(grantId: $grantId, from: $from, to: $to)
  }
`);

const MakeReportDeed = graphql(`
  mutation MakeGrantReport($grantId: ID!, $from: LocalDate!, $to: LocalDate!) {
    makeGrantReport(grantId: $grantId, from: $from, to: $to) {
      __typename
      ... on GrantReportPayload {
        report {
          id
        }
      }
      ...Refused
    }
  }
`);

const fields = { grantId: 'report-grant', from: 'report-from', to: 'report-to' };

interface Grant {
  id: string;
  name: string;
  from: string;
  to: string;
}

/** See what a report would say, then make it: from then on its hours are this grant's. */
export function MakeReport({ grants, made }: { grants: readonly Grant[]; made: () => void }) {
  const client = useClient();
  const { run, busy } = useDeed(MakeReportDeed);
  const { outcome, words, wrong, settle } = useOutcome(fields);
  const [grantId, setGrantId] = useState(grants[0]?.id ?? '');
  const [draft, setDraft] = useState<{ asked: string; said: ReportSaid } | null>(null);
  const grant = grants.find((one) => one.id === grantId) ?? grants[0];

  async function look(filled: Filled) {
    const asked = { grantId, from: filled.text('from'), to: filled.text('to') };
    const result = await client.query(DraftQuestion, asked, { requestPolicy: 'network-only' }).toPromise();
    if (result.error) {
      setDraft(null);
      settle({ kind: 'fault', words: sayFault(result.error) }, '');
    } else {
      settle({ kind: 'done', done: null }, 'This is what it would say.');
      setDraft({ asked: JSON.stringify(asked), said: result.data?.grantReportDraft as ReportSaid });
    }
  }

  async function make() {
    if (!draft) return;
    const answer = await run(JSON.parse(draft.asked) as { grantId: string; from: string; to: string });
    if (settle(answer, 'The report is made.') && answer.kind === 'done') {
      made();
      go(to('hours', 'report', answer.done.report.id));
    }
  }

  return (
    <>
      <Form send={look} key={grant?.id}>
        <Answer outcome={outcome} done={words} fields={fields} />
        <Choice
          id="report-grant"
          label="For"
          value={grantId}
          onChange={(event) => {
            setGrantId(event.target.value);
            setDraft(null);
          }}
          wrong={wrong('report-grant')}
        >
          {grants.map((one) => (
            <option key={one.id} value={one.id}>
              {one.name}
            </option>
          ))}
        </Choice>
        <div className="side-by-side">
          <Field
            id="report-from"
            name="from"
            type="date"
            label="First day"
            defaultValue={grant?.from}
            wrong={wrong('report-from')}
          />
          <Field
            id="report-to"
            name="to"
            type="date"
            label="Last day"
            defaultValue={grant?.to}
            wrong={wrong('report-to')}
          />
        </div>
        <button type="submit" className="quiet">
          See what it would say
        </button>
      </Form>
      {draft ? (
        <div className="draft">
          <h3>A draft: nothing is claimed yet</h3>
          <button type="button" className="deed" disabled={busy} onClick={() => void make()}>
            Make this report and keep it
          </button>
          <Said said={draft.said} />
        </div>
      ) : null}
    </>
  );
}
