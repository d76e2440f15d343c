import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page } from '../parts/page.js';
import { PrintButton } from '../parts/print-button.js';
import { sayHours, sayMoney } from './hours-words.js';
import type { ReportSaid } from './report-said.js';
import './hours.css';

const ReportQuestion = graphql(`
  query GrantReport($id: ID!) {
    grantReport(id: $id) {
      id
      document
      csv
      hash
      isUntouched
      madeBy
      withdrawnAt
      withdrawnBy
      withdrawReason
    }
  }
`);

/** A report as it was made, to print; it is the same each time. */
export function Report({ id }: { id: string }) {
  const [answer, again] = useAsk(ReportQuestion, { id });
  return (
    <Page title="Volunteer hours">
      <p className="no-print">
        <a href={to('hours', 'grants')}>Back to grants and reports</a>
      </p>
      <Asked answer={answer} what="the report" again={again}>
        {({ grantReport: report }) =>
          report ? (
            <>
              {report.withdrawnAt ? (
                <p className="gap">
                  Withdrawn by {report.withdrawnBy}: {report.withdrawReason}. It claims nothing any more.
                </p>
              ) : null}
              <div className="no-print buttons">
                <PrintButton />
                <button
                  type="button"
                  className="quiet"
                  onClick={() => {
                    save(report.csv, `hours-${(report.document as ReportSaid).from}.csv`);
                  }}
                >
                  Save as a table (CSV)
                </button>
              </div>
              <Said said={report.document as ReportSaid} />
              <p className="pencil hash">
                {report.isUntouched ? 'As it was made' : 'NOT as it was made: the record was changed'}; its
                mark (SHA-256) is {report.hash}
              </p>
            </>
          ) : (
            <Nothing>
              <p>There is no such report.</p>
            </Nothing>
          )
        }
      </Asked>
    </Page>
  );
}

function save(text: string, name: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  URL.revokeObjectURL(address);
}

/** What a report or a draft says. */
export function Said({ said }: { said: ReportSaid }) {
  return (
    <article>
      <p>
        {said.organisation}
        <br />
        To {said.grant.funder}: {said.grant.name}
        {said.grant.awardNumber ? `, award ${said.grant.awardNumber}` : ''}
        <br />
        {said.from} to {said.to}; made by {said.madeBy} on {said.madeOn}
      </p>
      <p>
        <strong>{sayHours(said.minutes)}</strong> of volunteers’ time, worth{' '}
        <strong>{sayMoney(said.cents)}</strong>.
      </p>
      <h2>By kind of work</h2>
      <Sums rows={said.byKind} head="Kind of work" />
      <h2>Rates and where they come from</h2>
      <ul className="plain">
        {said.rates.map((rate) => (
          <li key={`${rate.kind} ${rate.centsAnHour} ${rate.source}`}>
            {rate.kind}: {sayMoney(rate.centsAnHour)} an hour. {rate.source}.
          </li>
        ))}
      </ul>
      <p>
        Volunteers’ time is valued at the pay for similar work, and one hour counts for one award only (2 CFR
        200.306). Each line is worth its minutes at the rate of its day, rounded to the cent.
      </p>
      {said.leftOut.length ? (
        <>
          <h2>Not counted</h2>
          <ul className="plain">
            {said.leftOut.map((left) => (
              <li key={left.why}>
                {sayHours(left.minutes)}: {left.why}
              </li>
            ))}
          </ul>
        </>
      ) : null}
      <h2>By person</h2>
      <Sums rows={said.byPerson} head="Person" />
      <h2>By day</h2>
      <Sums rows={said.byDay} head="Day" />
      <h2>Each entry</h2>
      <div className="wide-table" role="region" aria-label="Each entry" tabIndex={0}>
        <table className="sums">
          <thead>
            <tr>
              <th>Day</th>
              <th>Person</th>
              <th>Work</th>
              <th>Time</th>
              <th className="figure">Hours</th>
              <th className="figure">Worth</th>
            </tr>
          </thead>
          <tbody>
            {said.lines.map((line) => (
              <tr key={line.entry}>
                <td>{line.on}</td>
                <td>{line.person}</td>
                <td>
                  {line.task ?? 'on no task'} <span className="pencil">({line.kind})</span>
                  {line.reason ? ` ${line.reason}` : ''}
                </td>
                <td>{line.start ? `${line.start} to ${line.end ?? ''}` : 'adjustment'}</td>
                <td className="figure">{sayHours(line.minutes)}</td>
                <td className="figure">{sayMoney(line.cents)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="signature">Signed: ______________________________ Date: ______________</p>
    </article>
  );
}

function Sums({ rows, head }: { rows: ReportSaid['byKind']; head: string }) {
  return (
    <table className="sums">
      <thead>
        <tr>
          <th>{head}</th>
          <th className="figure">Hours</th>
          <th className="figure">Worth</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.name}>
            <td>{row.name}</td>
            <td className="figure">{sayHours(row.minutes)}</td>
            <td className="figure">{sayMoney(row.cents)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
