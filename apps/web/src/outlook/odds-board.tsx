import { useYard } from '../live/yard.js';
import { addDays, sayDay, sayShortDay } from '../words/dates.js';
import { oddsBy, notches, type Notch } from './odds-notches.js';
import type { Odds } from './odds.question.js';

const width = 320;
const rowHeight = 26;
const staff = 200;
const left = 74;

/** The odds over dates as a notched board: one row a week, cut as deep as she is likely to be ready by then. */
export function OddsBoard({ odds }: { odds: Odds }) {
  const { haulOut, today } = useYard();
  const gates = odds.slots
    .filter(({ role }) => role !== 'LATER')
    .map(({ slot, role, words }) => ({
      on: slot.on,
      name: role === 'GATE' ? 'the Gate' : 'Fallback Gate',
      words,
    }));
  const rows = notches(odds.spread, gates, odds.futures);
  return (
    <div className="odds-board">
      <svg
        viewBox={`0 0 ${width} ${rows.length * rowHeight + 8}`}
        width={width}
        className="odds-staff"
        aria-hidden="true"
      >
        <path className="tide-wood" d={edge(rows)} />
        {rows.map((row, index) => (
          <g key={row.on} transform={`translate(0 ${index * rowHeight + 4})`}>
            <text x={left - 8} y={rowHeight / 2 + 5} textAnchor="end" className="tide-name">
              {sayShortDay(row.on).replace(/^(\d+ \w{3})\w*/, '$1')}
            </text>
            {row.gate ? (
              <>
                <path className="odds-gate" d={`M${left} ${rowHeight / 2}H${left + staff + 6}`} />
                <text x={left + staff + 10} y={rowHeight / 2 + 5} className="tide-name">
                  {row.gate === 'the Gate' ? 'Gate' : 'Fallb.'}
                </text>
              </>
            ) : null}
          </g>
        ))}
      </svg>
      <dl className="odds-words">
        {gates.map((gate) => (
          <div key={gate.on}>
            <dt>
              {gate.name}, {sayDay(gate.on)}
            </dt>
            <dd>{gate.words} to be ready by then</dd>
          </div>
        ))}
        <div>
          <dt>As likely as not</dt>
          <dd>{odds.evenOn ? `ready by ${sayDay(odds.evenOn)}` : 'no day that is known'}</dd>
        </div>
        <div>
          <dt>8 in 10</dt>
          <dd>{odds.likelyOn ? `ready by ${sayDay(odds.likelyOn)}` : 'no day that is known'}</dd>
        </div>
        <div>
          <dt>19 in 20</dt>
          <dd>{odds.sureOn ? `ready by ${sayDay(odds.sureOn)}` : 'no day that is known'}</dd>
        </div>
        {odds.decisiveWeeks.length ? (
          <div>
            <dt>Most is decided</dt>
            <dd>
              in the weeks of{' '}
              {odds.decisiveWeeks.map((monday) => sayShortDay(addDays(monday, 0), today)).join(', ')}
            </dd>
          </div>
        ) : null}
      </dl>
      {haulOut ? null : <p>No gate is booked.</p>}
      <p className="pencil">
        {odds.futures.toLocaleString('en')} futures of this plan were lived through
        {oddsBy(odds.spread, today) > 0 ? '; in some she is ready today' : ''}.
      </p>
    </div>
  );
}

/** The board's edge: wood as wide as the odds, with a notch between the weeks. */
function edge(rows: Notch[]): string {
  const steps = rows.map(({ odds }, index) => {
    const x = left + Math.max(3, odds * staff);
    const top = index * rowHeight + 4;
    return `L${left + 3} ${top}L${x.toFixed(1)} ${top + 3}V${top + rowHeight - 3}L${left + 3} ${top + rowHeight}`;
  });
  return `M${left} 4${steps.join('')}L${left} ${rows.length * rowHeight + 4}Z`;
}
