import { effectiveTallies } from '../tallies/effective-tallies.js';
import type { SaySo } from '../tallies/say-so.entity.js';
import type { TallyEntity } from '../tallies/tally.entity.js';
import type { ThreePoint } from './task-draft.js';
import type { Task } from './task.entity.js';

export type ProgressTask = Pick<
  Task,
  'kind' | 'estimateBy' | 'count' | 'low' | 'likely' | 'high' | 'startedOn' | 'endedOn'
>;
export type ProgressTally = Pick<
  TallyEntity,
  'id' | 'correctsId' | 'count' | 'minutes' | 'finished' | 'workedOn' | 'yardAt' | 'enteredAt'
>;
export type ProgressSaySo = Pick<SaySo, 'verdict' | 'countBack' | 'minutesBack' | 'yardAt' | 'saidAt'>;

/** How far a task has come, out of its own records alone. Instants are epoch milliseconds. */
export interface Progress {
  stage: 'not begun' | 'begun' | 'shown' | 'passed' | 'redo';
  /** Pieces done and not sent back; 0 where nothing is counted. */
  countDone: number;
  /** Pieces still to do; null where nothing is counted. */
  countLeft: number | null;
  /** Person-minutes done and not sent back. */
  minutesDone: number;
  /** Person-minutes still to do: best, likely and worst case; null where the task is no work. */
  workLeft: ThreePoint | null;
  begunAt: number | null;
  /** When it was shown, or passed by those who don't show anything; null while it isn't done. */
  doneAt: number | null;
}

/** Work that runs over its estimate and isn't called finished: somebody still has to come and finish it. */
const leastMinutesLeft = 15;

/** Corrected to nothing: it never was. */
const isVoid = ({ count, minutes, finished }: ProgressTally): boolean =>
  !finished && minutes === 0 && (count ?? 0) === 0;

/** Start and end of a local day at the yard. */
export interface DayBounds {
  startOf(day: string): number;
  endOf(day: string): number;
}

interface Happening {
  at: number;
  order: number;
  apply(): void;
}

/**
 * Lays tallies and say-sos out in the order in which they were entered. Work is shown when somebody says that it is
 * finished or all that is counted is done; sent back it loses what was sent back, and is shown again as before.
 */
export function progressOf(
  task: ProgressTask,
  tallies: readonly ProgressTally[],
  saySos: readonly ProgressSaySo[],
  days: DayBounds,
): Progress {
  const state = {
    stage: 'not begun' as Progress['stage'],
    count: 0,
    minutes: 0,
    doneAt: null as number | null,
  };
  let begunAt = task.startedOn === null ? null : days.startOf(task.startedOn);
  const target = task.estimateBy === 'count' ? task.count : null;

  const onTally = ({ tally }: { tally: ProgressTally }): void => {
    state.count += tally.count ?? 0;
    state.minutes += tally.minutes;
    begunAt = Math.min(begunAt ?? Infinity, days.startOf(tally.workedOn));
    if (state.stage === 'passed') return;
    if (state.stage === 'not begun') state.stage = 'begun';
    const allCounted = target !== null && state.count >= target;
    if (state.stage !== 'shown' && (tally.finished || allCounted)) {
      state.stage = 'shown';
      state.doneAt = tally.yardAt;
    }
  };
  const onSaySo = (said: ProgressSaySo): void => {
    if (said.verdict === 'passed') {
      state.doneAt ??= said.yardAt;
      state.stage = 'passed';
      return;
    }
    state.stage = 'redo';
    state.doneAt = null;
    // What was finished below its count comes back from the whole count.
    const done = target === null ? state.count : target;
    state.count = Math.max(0, done - said.countBack);
    state.minutes = Math.max(0, state.minutes - said.minutesBack);
  };

  const happenings: Happening[] = [
    ...effectiveTallies(tallies)
      .filter(({ tally }) => !isVoid(tally))
      .map((one) => ({
        at: one.first.enteredAt,
        order: 0,
        apply: () => {
          onTally(one);
        },
      })),
    ...saySos.map((said) => ({
      at: said.saidAt,
      order: 1,
      apply: () => {
        onSaySo(said);
      },
    })),
  ];
  for (const happening of happenings.sort((a, b) => a.at - b.at || a.order - b.order)) happening.apply();

  if (state.stage === 'not begun' && begunAt !== null) state.stage = 'begun';
  if (task.endedOn !== null && state.stage !== 'redo' && state.stage !== 'passed') {
    state.stage = 'passed';
    state.doneAt ??= days.endOf(task.endedOn);
  }
  const done = state.stage === 'shown' || state.stage === 'passed';
  const countLeft = target === null ? null : done ? 0 : Math.max(0, target - state.count);
  return {
    stage: state.stage,
    countDone: state.count,
    countLeft,
    minutesDone: state.minutes,
    workLeft: done && task.kind === 'work' ? nothing : workLeft(task, countLeft, state.minutes),
    begunAt,
    doneAt: state.doneAt,
  };
}

const nothing: ThreePoint = { low: 0, likely: 0, high: 0 };

/** Count left over rate; or what is left of the estimate, and beyond it of the worst case. */
function workLeft(task: ProgressTask, countLeft: number | null, minutesDone: number): ThreePoint | null {
  const { low, likely, high } = task;
  if (task.kind !== 'work' || low === null || likely === null || high === null) return null;
  if (countLeft !== null) {
    const at = (perHour: number) =>
      Math.max((countLeft / perHour) * 60, countLeft > 0 ? 1 : leastMinutesLeft);
    // The fastest rate gives the shortest time.
    return { low: at(high), likely: at(likely), high: at(low) };
  }
  const left = (estimate: number) => Math.max(estimate - minutesDone, 0);
  const mostLikely = left(likely) || Math.max(left(high), leastMinutesLeft);
  return { low: left(low), likely: mostLikely, high: Math.max(left(high), mostLikely) };
}
