import { refuse } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { Seat } from './seat.entity.js';
import { TaskOpening } from './task-opening.entity.js';
import { draftOf } from './task-row.js';
import { TaskTool } from './task-tool.entity.js';
import { Task } from './task.entity.js';
import type { TaskDraft } from './task-draft.js';

/** A task of the organisation. @throws RefusalError NOT_FOUND, naming the input field */
export async function taskOf(
  manager: EntityManager,
  organisationId: string,
  id: string,
  field = 'id',
): Promise<Task> {
  return (
    (await manager.findOneBy(Task, { organisationId, id })) ??
    refuse('NOT_FOUND', 'There is no such task.', { field, remedy: 'Choose one from the list.' })
  );
}

/** A task that is part of the scope. @throws RefusalError NOT_FOUND, TASK_NOT_READY when it was dropped */
export async function liveTaskOf(
  manager: EntityManager,
  organisationId: string,
  id: string,
  field = 'id',
): Promise<Task> {
  const task = await taskOf(manager, organisationId, id, field);
  if (task.droppedAt !== null)
    refuse('TASK_NOT_READY', `"${task.title}" was dropped: ${task.dropReason ?? 'no reason given'}.`, {
      field,
      remedy: 'Add it anew if it is wanted after all.',
    });
  return task;
}

/** A task as it could be entered again. */
export async function readDraft(manager: EntityManager, task: Task): Promise<TaskDraft> {
  const inOrder = { where: { taskId: task.id }, order: { id: 'ASC' } } as const;
  return draftOf(
    task,
    await manager.find(Seat, inOrder),
    await manager.find(TaskTool, inOrder),
    await manager.find(TaskOpening, inOrder),
  );
}
