import { useKeptDeeds } from '../live/kept-deeds.js';
import { useLine } from '../live/line-state.js';

/** What the line does, and what became of what was pressed while it was down. Nothing while all is well. */
export function LineWords() {
  const { isDown, heardAt } = useLine();
  const { deeds, dismiss } = useKeptDeeds();
  if (!isDown && deeds.length === 0) return null;
  return (
    <aside className="line-words" aria-label="The line">
      {isDown ? (
        <p role="status">
          <strong>No line to the yard.</strong>{' '}
          {heardAt === null ? '' : `What you see was heard ${sayMoment(heardAt)}. `}
          Places that you take or leave, tallies that you enter, and a turnout that you call, are kept here
          and sent when the line is back.
        </p>
      ) : null}
      {deeds.length ? (
        <ul className="plain">
          {deeds.map(({ key, what, done, answer }) => (
            <li key={key}>
              {answer === null ? (
                <>
                  <strong>Waits:</strong> {what}.
                </>
              ) : answer.kind === 'done' ? (
                <>
                  <strong>Done:</strong> {done}{' '}
                </>
              ) : (
                <>
                  <strong>Not done:</strong> {what}. {answer.message} {answer.remedy ?? ''}{' '}
                </>
              )}
              {answer === null ? null : (
                <button
                  type="button"
                  className="quiet"
                  onClick={() => {
                    dismiss(key);
                  }}
                >
                  Read<span className="unseen">: {what}</span>
                </button>
              )}
            </li>
          ))}
        </ul>
      ) : null}
    </aside>
  );
}

/** In the zone of whoever reads it: it is their own clock. */
function sayMoment(at: number): string {
  const date = new Date(at);
  const time = date.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
  const isToday = date.toDateString() === new Date().toDateString();
  return isToday ? `at ${time}` : `on ${date.toLocaleDateString('en-GB', { weekday: 'long' })} at ${time}`;
}
