import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Page } from '../parts/page.js';
import { PrintButton } from '../parts/print-button.js';
import { list } from '../words/amounts.js';
import { sayDay, timeOf } from '../words/dates.js';
import './hours.css';

const CrewListQuestion = graphql(`
  query CrewList($turnoutId: ID!) {
    crewList(turnoutId: $turnoutId) {
      turnout {
        id
        on
        startTime
        endTime
      }
      lines {
        volunteerId
        name
        isMinor
        expected
        arrivedAt
        leftAt
        work
        waiver
        cards {
          name
          expiresOn
          valid
        }
      }
    }
  }
`);

/** Who is expected and who was there, with cards and waiver, to print for the insurer. */
export function CrewList({ turnoutId }: { turnoutId: string }) {
  const { me, timeZone, haulOut } = useYard();
  const [answer, again] = useAsk(CrewListQuestion, { turnoutId }, 'roster');
  const time = (at: string | null | undefined) => (at ? timeOf(at, timeZone) : '');
  return (
    <Page title="Crew list of the day">
      <div className="no-print">
        <p>
          <a href={to('hours')}>Back to the hours</a>
        </p>
        <PrintButton />
      </div>
      <Asked answer={answer} what="the list" again={again}>
        {({ crewList: { turnout, lines } }) => (
          <>
            <p>
              {me.organisation.name}, {haulOut?.vessel.name}. {sayDay(turnout.on)} {turnout.on.slice(0, 4)},{' '}
              {turnout.startTime} to {turnout.endTime}.
            </p>
            {lines.length ? (
              <div className="wide-table" role="region" aria-label="Crew list" tabIndex={0}>
                <table className="sums">
                  <thead>
                    <tr>
                      <th>Name</th>
                      <th>There</th>
                      <th>Work</th>
                      <th>Waiver</th>
                      <th>Cards</th>
                    </tr>
                  </thead>
                  <tbody>
                    {lines.map((line) => (
                      <tr key={line.volunteerId}>
                        <td>
                          {line.name}
                          {line.isMinor ? ' (under 18)' : ''}
                        </td>
                        <td>
                          {line.arrivedAt
                            ? `${time(line.arrivedAt)} to ${time(line.leftAt) || '…'}`
                            : 'expected'}
                          {line.arrivedAt && !line.expected ? ', without a place' : ''}
                        </td>
                        <td>{list(line.work)}</td>
                        <td>{typeof line.waiver !== 'boolean' ? 'not kept' : line.waiver ? 'yes' : 'NO'}</td>
                        <td>
                          {list(
                            line.cards.map(
                              (card) =>
                                `${card.name}${card.expiresOn ? ` until ${card.expiresOn}` : ''}${card.valid ? '' : ' (lapsed)'}`,
                            ),
                          )}
                        </td>
                      </tr>
                    ))}
                  </tbody>
                </table>
              </div>
            ) : (
              <p>Nobody has a place, and nobody was there.</p>
            )}
            <p className="signature">Checked by: ______________________________</p>
          </>
        )}
      </Asked>
    </Page>
  );
}
