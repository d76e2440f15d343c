import type { Caller } from '@ribband/access';
import { type ConnectionOf, type PageArgs, pageOf } from '@ribband/platform';
import type { TaskState } from './task-words.js';
import type { Task } from './task.entity.js';
import type { Board } from './yard-board.js';

export interface TaskFilter {
  /** Part of a position, in any case. */
  position?: string | null | undefined;
  /** Words that stand in title and position together, in any case and order. */
  words?: string | null | undefined;
  state?: TaskState | null | undefined;
}

/** A page of the board's tasks in the order in which they were entered. Everybody at the yard may read it. */
export function listTasks(board: Board, filter: TaskFilter, page: PageArgs): ConnectionOf<Task> {
  const position = filter.position?.trim().toLowerCase();
  const words = (filter.words ?? '').toLowerCase().split(/\s+/);
  const found = board.tasks.filter(
    (task) =>
      words.every((word) => `${task.title} ${task.position ?? ''}`.toLowerCase().includes(word)) &&
      (!position || (task.position ?? '').toLowerCase().includes(position)) &&
      (!filter.state || board.standing.get(task.id)?.state === filter.state),
  );
  return pageOf(found, page);
}

/** The tasks of the ids that are the caller's yard's. */
export function tasksById(board: Board, ids: readonly string[], caller: Caller): Task[] {
  const wanted = new Set(ids);
  return board.tasks.filter((task) => wanted.has(task.id) && task.organisationId === caller.organisationId);
}
