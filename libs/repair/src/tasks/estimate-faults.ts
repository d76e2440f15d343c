import type { Fault } from '@ribband/crew';
import type { Estimate, TaskDraft } from './task-draft.js';
import type { EstimateWay, TaskKind } from './task-words.js';

type Add = (code: Fault['code'], path: string, message: string, wouldBeRight: string) => void;

const estimatesOf: Record<TaskKind, readonly EstimateWay[]> = {
  work: ['count', 'work'],
  fixed: ['time'],
  elapsed: ['time'],
  hold: [],
  launch: [],
};

const mostCounted = 1_000_000;
const most = 10_000_000;

/** The three points of an estimate, the path of the input field that holds them, and the least that they may be. */
export function pointsOf(estimate: Estimate) {
  switch (estimate.by) {
    case 'count':
      return { field: 'byCount.perPersonHour', points: estimate.perPersonHour, least: 0.001 };
    case 'work':
      return { field: 'personMinutes', points: estimate.personMinutes, least: 1 };
    case 'time':
      return { field: 'minutes', points: estimate.minutes, least: 1 };
  }
}

/** What can't stand in an estimate, given what the task is. */
export function checkEstimate({ kind, estimate }: Pick<TaskDraft, 'kind' | 'estimate'>, add: Add): void {
  const wanted = estimatesOf[kind];
  const right = wanted.length === 0 ? 'no estimate' : `an estimate by ${wanted.join(' or ')}`;
  if (!estimate) {
    if (wanted.length > 0) add('BAD_INPUT', 'estimate', 'It has no estimate', right);
    return;
  }
  if (!wanted.includes(estimate.by)) {
    add('BAD_INPUT', 'estimate', `A task of the kind "${kind}" can’t be estimated by ${estimate.by}`, right);
    return;
  }
  if (estimate.by === 'count') checkCount(estimate, add);
  const { field, points, least } = pointsOf(estimate);
  const path = `estimate.${field}`;
  const { low, likely, high } = points;
  if (![low, likely, high].every((point) => point >= least && point <= most))
    add(
      'BAD_INPUT',
      path,
      `${low}, ${likely}, ${high} lie outside what can be`,
      `three numbers from ${least} to ${most}`,
    );
  else if (low > likely || likely > high)
    add(
      'ESTIMATE_OUT_OF_ORDER',
      path,
      `${low}, ${likely}, ${high} don’t rise`,
      'low at most likely, likely at most high',
    );
}

function checkCount({ count, unit }: { count: number; unit: string }, add: Add): void {
  const path = 'estimate.byCount.count';
  if (count < 0) add('NEGATIVE_COUNT', path, `${count} is below zero`, 'how many there are, 1 or more');
  else if (!Number.isInteger(count) || count < 1 || count > mostCounted)
    add('BAD_INPUT', path, `${count} is no count`, `a whole number from 1 to ${mostCounted}`);
  if (unit.trim() === '' || unit.length > 100)
    add('BAD_INPUT', 'estimate.byCount.unit', 'It doesn’t say what is counted', 'a word such as nails');
}
