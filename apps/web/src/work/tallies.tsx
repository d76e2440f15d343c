import { useYard } from '../live/yard.js';
import { sayMinutes } from '../words/amounts.js';
import { dayOf, sayShortDay } from '../words/dates.js';
import type { Task } from './task.question.js';

/** What has been entered for a task and what the shipwright said to it, newest first. */
export function Tallies({ task }: { task: Task }) {
  const { today } = useYard();
  const counts = task.tallies.filter((tally) => !tally.correctedById);
  if (!counts.length && !task.saySos.length) return <p>Nothing has been entered yet.</p>;
  const unit = task.estimate?.__typename === 'CountEstimate' ? task.estimate.unit : '';
  return (
    <ul className="tallies">
      <SaySos task={task} />
      {counts.map((tally) => (
        <li key={tally.id}>
          <span className="pencil">{sayShortDay(tally.on, today)}</span> {tally.hand?.name ?? 'Several hands'}
          : {tally.count === null ? '' : `${tally.count} ${unit} in `}
          {sayMinutes(tally.minutes)}
          {tally.finished ? ', finished' : ''}. {tally.note ?? ''}
        </li>
      ))}
    </ul>
  );
}

function SaySos({ task }: { task: Task }) {
  const { today, timeZone } = useYard();
  return task.saySos.map((said) => (
    <li key={said.id}>
      <span className="pencil">{sayShortDay(dayOf(said.yardAt, timeZone), today)}</span> {said.saidBy}{' '}
      <strong>{said.verdict === 'PASSED' ? 'passed it' : 'sent it back'}</strong>
      {said.countBack ? `, ${said.countBack} to do again` : ''}. {said.note ?? ''}
    </li>
  ));
}
