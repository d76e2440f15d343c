import type { Caller } from '@ribband/access';
import { refuse } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import type { Progress } from '../tasks/progress.js';
import type { Task } from '../tasks/task.entity.js';
import type { Board } from '../tasks/yard-board.js';
import { effectiveTallies } from './effective-tallies.js';
import { TallyEntity } from './tally.entity.js';

const mostMinutes = 100_000;
const mostCount = 1_000_000;
const dayMinutes = 24 * 60;

/** Numbers that no tally of this task can have. @throws RefusalError */
export function checkNumbers(task: Task, count: number | null, minutes: number): void {
  if (count !== null && count < 0)
    refuse('NEGATIVE_COUNT', `${count} is below zero.`, {
      field: 'count',
      remedy: 'How many were done, 0 or more; to take some off, correct the tally that was too high.',
    });
  if (count !== null && task.estimateBy !== 'count')
    refuse('BAD_INPUT', `On "${task.title}" nothing is counted.`, {
      field: 'count',
      remedy: 'Leave the count out.',
    });
  if (count !== null && (!Number.isInteger(count) || count > mostCount))
    refuse('BAD_INPUT', `${count} is no count.`, {
      field: 'count',
      remedy: `A whole number up to ${mostCount}.`,
    });
  if (!Number.isInteger(minutes) || minutes < 0 || minutes > mostMinutes)
    refuse('BAD_INPUT', `${minutes} are no person-minutes.`, {
      field: 'minutes',
      remedy: `Whole minutes from 0 to ${mostMinutes}, those of all hands together.`,
    });
}

/** @throws RefusalError on what has no tally, and on a tally that says nothing */
export function refuseUncounted(task: Task, count: number | null, minutes: number, finished: boolean): void {
  if (task.kind === 'hold' || task.kind === 'launch')
    refuse('TASK_NOT_READY', `"${task.title}" is a say-so and has no tally.`, {
      field: 'taskId',
      remedy: 'The shipwright passes it.',
    });
  checkNumbers(task, count, minutes);
  if (!finished && minutes === 0 && (count ?? 0) === 0)
    refuse('BAD_INPUT', 'This tally says that nothing was done.', {
      field: 'minutes',
      remedy: 'Enter the minutes, the count, or that it is finished.',
    });
}

/**
 * Volunteers tally neither what is passed nor what cannot have begun; who leads knows the yard, and enters what came late
 * or before its turn. @throws RefusalError
 */
export function refuseOutOfTurn({ role }: Caller, task: Task, board: Board): void {
  if (role !== 'volunteer') return;
  const state = board.standing.get(task.id)?.state;
  if (state === 'passed')
    refuse('TASK_NOT_READY', `"${task.title}" is passed: nothing is left to do.`, {
      field: 'taskId',
      remedy:
        'What you did before that the coordinator enters; what must be done again the shipwright sends back.',
    });
  if (state !== 'waiting') return;
  const first = (board.linksInto.get(task.id) ?? []).find(({ beforeId, relation, lagMinutes }) => {
    if (relation.endsWith('to-finish') || board.task.get(beforeId)?.droppedAt !== null) return false;
    const { begunAt = null, doneAt = null } = board.standing.get(beforeId) ?? {};
    return (relation === 'start-to-start' || lagMinutes < 0 ? begunAt : doneAt) === null;
  });
  const before = first && board.task.get(first.beforeId);
  refuse(
    'TASK_NOT_READY',
    before
      ? `"${task.title}" waits for "${before.title}", by what was entered so far.`
      : `"${task.title}" cannot have begun: its time has not come.`,
    {
      field: 'taskId',
      remedy: before
        ? 'Let that be entered or passed first, or ask the coordinator to enter this.'
        : 'If it was begun all the same, ask the coordinator to enter it.',
    },
  );
}

/**
 * @param more pieces that the tally has more than what it replaces, if anything
 * @throws RefusalError where more would be done than there is
 */
export function refuseTooMany(task: Task, progress: Progress | undefined, more: number): void {
  if (task.estimateBy !== 'count' || task.count === null || more <= 0) return;
  const left = Math.max(0, task.count - (progress?.countDone ?? 0));
  if (more <= left) return;
  const unit = task.unit ?? 'pieces';
  refuse('BAD_INPUT', `Of ${task.count} ${unit} ${left} are left, fewer than that.`, {
    field: 'count',
    remedy: `${left} or fewer. If there are more than ${task.count}, the shipwright corrects the count of the task first.`,
  });
}

/** @throws RefusalError where somebody would have worked longer on a day than it is */
export async function refuseLongDay(
  manager: EntityManager,
  tally: Pick<TallyEntity, 'organisationId' | 'volunteerId' | 'workedOn' | 'minutes' | 'correctsId'>,
): Promise<void> {
  const { organisationId, volunteerId, workedOn, minutes, correctsId } = tally;
  if (volunteerId === null) return;
  const rows = await manager.findBy(TallyEntity, { organisationId, volunteerId, workedOn });
  const others = effectiveTallies(rows).filter(({ tally: { id } }) => id !== correctsId);
  const already = others.reduce((sum, other) => sum + other.tally.minutes, 0);
  if (already + minutes <= dayMinutes) return;
  refuse('BAD_INPUT', 'That is more than 24 hours of one person on one day.', {
    field: 'minutes',
    remedy: 'Enter each day by itself; the work of several is entered without a name.',
    facts: already > 0 ? { 'minutes entered for that day': already } : {},
  });
}
