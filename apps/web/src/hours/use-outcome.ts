import { useState } from 'react';
import { useSay } from '../live/announcer.js';
import type { Outcome } from '../live/deed.js';
import { controlFor } from '../parts/control-for.js';

/** What came of a deed, which control a refusal is about, and what is said when it was done. */
export function useOutcome(fields: Record<string, string>) {
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const [words, setWords] = useState('');
  const refusal = outcome?.kind === 'refused' ? outcome.refusal : null;
  const wrongAt = controlFor(refusal?.field, fields);
  /** @returns whether it was done */
  const settle = (answer: Outcome<unknown>, done: string): boolean => {
    setOutcome(answer);
    if (answer.kind !== 'done') return false;
    setWords(done);
    say(done);
    return true;
  };
  const wrong = (id: string) => (wrongAt === id ? refusal?.message : null);
  return { outcome, words, wrong, settle };
}
