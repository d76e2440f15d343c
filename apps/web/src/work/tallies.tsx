import { useYard } from '../live/yard.js';
import { sayMinutes } from '../words/amounts.js';
import { sayShortDay } from '../words/dates.js';
import type { Task } from './task-page.js';

/** What has been entered for a task, oldest first. */
export function Tallies({ task }: { task: Task }) {
  const { today } = useYard();
  const unit = task.estimate?.__typename === 'CountEstimate' ? task.estimate.unit : '';
  if (!task.tallies.length) return <p>Nothing has been entered yet.</p>;
  return (
    <ul className="tallies">
      {task.tallies.map((tally) => (
        <li key={tally.id}>
          <span className="pencil">{sayShortDay(tally.on, today)}</span> {tally.hand?.name ?? 'Someone'}:{' '}
          {tally.count === null || tally.count === undefined ? '' : `${tally.count} ${unit} in `}
          {sayMinutes(tally.minutes)}
          {tally.finished ? ', finished' : ''}. {tally.note ?? ''}
        </li>
      ))}
    </ul>
  );
}
