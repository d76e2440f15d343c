import type { ReactNode } from 'react';
import type { CombinedError } from 'urql';
import { sayFault } from '../live/deed.js';

interface AskedProps<Data> {
  answer: { fetching: boolean; data?: Data | undefined; error?: CombinedError | undefined };
  /** What is being fetched, for "Looking up the week…" */
  what: string;
  again: () => void;
  children: (data: Data) => ReactNode;
}

/** Shows what was asked of the server: while it is on its way, when it failed, when it is there. */
export function Asked<Data>({ answer, what, again, children }: AskedProps<Data>) {
  if (answer.data) {
    return (
      <>
        {answer.error ? <Fault words={sayFault(answer.error)} again={again} /> : null}
        {children(answer.data)}
      </>
    );
  }
  if (answer.error) return <Fault words={sayFault(answer.error)} again={again} />;
  return (
    <p className="waiting" role="status">
      Looking up {what}…
    </p>
  );
}

function Fault({ words, again }: { words: string; again: () => void }) {
  return (
    <div className="answer answer-no" role="alert">
      <p>{words}</p>
      <button type="button" className="quiet" onClick={again}>
        Ask again
      </button>
    </div>
  );
}

/** Nothing there yet, and what to do about it. */
export function Nothing({ children }: { children: ReactNode }) {
  return <div className="nothing">{children}</div>;
}
