import { type EarnedSums, type PlannedPoint } from '@ribband/engine';
import type { Board, Task } from '@ribband/repair';
import type { BaselineDocument } from './baseline.entity.js';

/** Person-minutes that a task is estimated at, whole; 0 for what is no work. */
export function estimateMinutes({ kind, estimateBy, count, likely, crewEfficient }: Task): number {
  if (likely === null) return 0;
  if (estimateBy === 'count') return count === null ? 0 : Math.round((count / likely) * 60);
  if (estimateBy === 'work') return Math.round(likely);
  return kind === 'fixed' ? Math.round(likely * Math.max(1, crewEfficient)) : 0;
}

/**
 * Which share of a task is earned, 0 to 1: counts done and not sent back over its count; where nothing is counted all
 * of it once it is shown, and nothing before. No percents are guessed.
 */
export function earnedShare(task: Task, board: Board): number {
  const progress = board.progress.get(task.id);
  if (board.standing.get(task.id)?.doneAt) return 1;
  if (task.estimateBy !== 'count' || !task.count || !progress) return 0;
  return Math.min(1, progress.countDone / task.count);
}

/** The sums of earned value at an instant, in person-minutes of the baseline. Dropped work is no longer wanted. */
export function earnedSums(baseline: BaselineDocument, board: Board, now: number): EarnedSums {
  const sums: EarnedSums = { budget: 0, planned: 0, earned: 0, actual: 0 };
  for (const { taskId, startsAt, endsAt, minutes } of baseline.tasks) {
    const task = board.task.get(taskId);
    if (!task || task.droppedAt !== null) continue;
    sums.budget += minutes;
    sums.planned += minutes * gone(startsAt, endsAt, now);
    sums.earned += minutes * earnedShare(task, board);
    sums.actual += board.progress.get(taskId)?.minutesDone ?? 0;
  }
  return sums;
}

/** The baseline's sum of work as it was to grow, in minutes since its first start; even through each task's time. */
export function plannedCurve(
  baseline: BaselineDocument,
  board: Board,
): { startsAt: number; points: PlannedPoint[] } {
  const tasks = baseline.tasks.filter(({ taskId }) => board.task.get(taskId)?.droppedAt === null);
  const startsAt = Math.min(...tasks.map((task) => task.startsAt));
  const instants = [...new Set(tasks.flatMap((task) => [task.startsAt, task.endsAt]))].sort((a, b) => a - b);
  const points = instants.map((instant) => ({
    minute: (instant - startsAt) / 60_000,
    planned: tasks.reduce(
      (sum, { startsAt: from, endsAt: to, minutes }) => sum + minutes * gone(from, to, instant),
      0,
    ),
  }));
  return { startsAt, points };
}

function gone(from: number, to: number, now: number): number {
  if (now >= to) return 1;
  return now <= from || to <= from ? 0 : (now - from) / (to - from);
}
