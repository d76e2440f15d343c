import { useReckoning } from '../live/news.js';
import { useYard } from '../live/yard.js';
import { dayOf, sayDay } from '../words/dates.js';

/** While a plan is being computed: how far it has come, in one line under the head of every page. */
export function Reckoner() {
  const reckoning = useReckoning();
  const { timeZone } = useYard();
  if (!reckoning) return null;
  if (reckoning.state === 'FAILED') {
    return (
      <p className="reckoner reckoner-failed" role="status">
        The last reckoning failed{reckoning.message ? `: ${reckoning.message}` : '.'} The plan below is the
        one before it.
      </p>
    );
  }
  if (reckoning.state === 'DONE') return null;
  const { progress } = reckoning;
  const fraction = progress?.fraction ?? null;
  return (
    <div className="reckoner">
      <progress aria-label="Reckoning the plan" max={1} {...(fraction === null ? {} : { value: fraction })} />
      <p>
        {reckoning.state === 'WAITING' ? 'A reckoning waits its turn.' : 'Reckoning.'}
        {progress ? ` ${progress.schedules.toLocaleString('en')} orders of work tried` : ''}
        {progress?.bestReadyAt
          ? `; ready at best on ${sayDay(dayOf(progress.bestReadyAt, timeZone))} so far`
          : ''}
        {progress?.boundReadyAt
          ? `, and no plan before ${sayDay(dayOf(progress.boundReadyAt, timeZone))}`
          : ''}
        {progress ? '.' : ''}
      </p>
    </div>
  );
}
