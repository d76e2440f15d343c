import { useYard } from '../live/yard.js';
import { sayDay, sayDistance } from '../words/dates.js';
import type { ComposedTurnout } from './week.question.js';

/** The head of one turnout: its day, its hours, and what must be seen to before it. */
export function TurnoutTop({ turnout, notices }: { turnout: ComposedTurnout['turnout']; notices: string[] }) {
  const { today } = useYard();
  return (
    <>
      <h2 id={turnout.id}>
        {sayDay(turnout.on)}{' '}
        <span className="pencil">
          {turnout.startTime} to {turnout.endTime}, {sayDistance(turnout.on, today)}
        </span>
      </h2>
      {turnout.note ? <p>{turnout.note}</p> : null}
      {turnout.cancelled ? (
        <p className="gap">
          Called off{turnout.cancelReason ? `: ${turnout.cancelReason}` : ''}. Nobody need come.
        </p>
      ) : null}
      {notices.length ? (
        <ul className="notices" aria-label="To see to before this turnout">
          {notices.map((notice) => (
            <li key={notice}>{notice}</li>
          ))}
        </ul>
      ) : null}
    </>
  );
}
