import { useState } from 'react';
import { useClient, type CombinedError } from 'urql';
import { useSay } from '../../live/announcer.js';
import { sayFault } from '../../live/deed.js';
import { WeekQuestion, type ComposedWeek } from '../week.question.js';
import { TriedWeekQuestion, type Tried } from './compose.question.js';
import { marked, placedIn, withMarksOf } from './placed.js';

/** What came of the last change. */
export interface Came {
  what: string;
  breaks: string[];
  odds: Tried['odds'];
  /** The week before it. */
  before: ComposedWeek;
}

/** A week that is being put together: the server's until somebody changes it, then one's own. */
export function useComposer(given: ComposedWeek) {
  const client = useClient();
  const say = useSay();
  const [own, setOwn] = useState<ComposedWeek | null>(null);
  const [came, setCame] = useState<Came | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const week = own ?? given;

  async function ask<T>(work: () => Promise<{ data?: T | undefined; error?: CombinedError | undefined }>) {
    setBusy(true);
    try {
      const { data, error } = await work();
      setFault(error ? sayFault(error) : null);
      return error ? undefined : data;
    } finally {
      setBusy(false);
    }
  }

  return {
    week,
    came,
    fault,
    busy,
    isOwn: own !== null,
    /** Whether a newer plan has come since. */
    isStale: own !== null && own.planId !== given.planId,
    /** @param what the change as one says it, for the line that tells of it */
    async put(key: string, volunteerId: string | null, what: string) {
      const { weekOf, planId } = week;
      if (!planId) return;
      const variables = { weekOf, planId, places: placedIn(week), put: { key, volunteerId } };
      const data = await ask(() =>
        client.query(TriedWeekQuestion, variables, { requestPolicy: 'network-only' }).toPromise(),
      );
      if (!data) return;
      const { breaks, odds } = data.triedWeek;
      setOwn(data.triedWeek.week);
      setCame({ what, breaks, odds, before: week });
      say(breaks.length ? `${what} ${breaks.join(' ')}` : `${what} Nothing on record speaks against it.`);
    },
    mark(key: string, fixed: boolean) {
      setOwn(marked(week, key, fixed));
    },
    async proposeAgain() {
      const fixed = placedIn(week).filter((one) => one.fixed);
      const data = await ask(() =>
        client
          .query(WeekQuestion, { weekOf: week.weekOf, fixed }, { requestPolicy: 'network-only' })
          .toPromise(),
      );
      if (!data) return;
      setOwn(data.weekProposal);
      setCame(null);
      say('Proposed again. The marked places are kept.');
    },
    undo() {
      if (!came) return;
      setOwn(withMarksOf(came.before, week));
      setCame(null);
      say('As it was before.');
    },
    /** Back to what the server has. */
    letGo() {
      setOwn(null);
      setCame(null);
      setFault(null);
    },
  };
}

export type Composing = ReturnType<typeof useComposer>;
