import { effectiveTallies } from '../tallies/effective-tallies.js';
import type { TallyEntity } from '../tallies/tally.entity.js';
import type { Progress } from '../tasks/progress.js';

export interface SettledTally {
  tally: Pick<TallyEntity, 'volunteerId' | 'workedOn' | 'count' | 'minutes' | 'finished' | 'note'>;
  /** Id of the row that was entered first: the order of entering. */
  firstId: string;
}

/**
 * A task's tallies so that they alone make up how far it has come: corrections worked in, what was sent back taken
 * off the latest ones, and "finished" only where the task still is.
 */
export function settledTallies(rows: readonly TallyEntity[], progress: Progress): SettledTally[] {
  const done = progress.stage === 'shown' || progress.stage === 'passed';
  const settled = effectiveTallies(rows).map(({ tally, first }) => ({
    firstId: first.id,
    tally: { ...tally, finished: tally.finished && done },
  }));
  const sum = (of: 'count' | 'minutes') => settled.reduce((total, { tally }) => total + (tally[of] ?? 0), 0);
  const tooMuch = {
    count: sum('count') - progress.countDone,
    minutes: sum('minutes') - progress.minutesDone,
  };
  for (const { tally } of [...settled].reverse()) {
    if (tally.count !== null) {
      // Below zero where more was called done than was counted: the latest tally takes it.
      const off = Math.min(tooMuch.count, tally.count);
      tally.count -= off;
      tooMuch.count -= off;
    }
    const off = Math.min(tooMuch.minutes, tally.minutes);
    tally.minutes -= off;
    tooMuch.minutes -= off;
  }
  return settled;
}
