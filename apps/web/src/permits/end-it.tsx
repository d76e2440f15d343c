import type { Outcome } from '../live/deed.js';

interface EndItProps {
  words: string;
  run: () => Promise<Outcome<unknown>>;
  busy: boolean;
  changed: () => void;
}

/** A button that ends what counted until now. */
export function EndIt({ words, run, busy, changed }: EndItProps) {
  return (
    <button
      type="button"
      className="quiet"
      disabled={busy}
      onClick={() => {
        void run().then(changed);
      }}
    >
      {words}
    </button>
  );
}
