import { insertAll, refuseFaults } from '@ribband/crew';
import { newId } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import type { RosterView } from '../roster-view/roster-view.js';
import { Seat } from './seat.entity.js';
import type { TaskDraft } from './task-draft.js';
import { taskFaults } from './task-faults.js';
import { TaskOpening } from './task-opening.entity.js';
import { openingRows, seatRows, taskColumns, toolRows } from './task-row.js';
import { openingFaults, surroundingsOf } from './task-surroundings.js';
import { TaskTool } from './task-tool.entity.js';
import { Task } from './task.entity.js';

// Whoever writes a task, a person or a method, writes it here: the same rules hold for both.

/** @throws RefusalError naming the field of the draft that does not hold */
export async function insertTask(
  manager: EntityManager,
  roster: RosterView,
  organisationId: string,
  ref: string,
  draft: TaskDraft,
): Promise<Task> {
  await refuseUnsound(manager, roster, organisationId, draft, null);
  const task: Task = {
    id: newId('task'),
    organisationId,
    ref,
    version: 1,
    ...taskColumns(draft),
    startedOn: null,
    endedOn: null,
    droppedAt: null,
    dropReason: null,
  };
  await manager.insert(Task, task);
  await writeParts(manager, task, draft);
  return task;
}

/**
 * Puts a draft in the place of what the task was; its tallies, places and story stay. One that was dropped is in the
 * scope again.
 * @throws RefusalError naming the field of the draft that does not hold
 */
export async function overwriteTask(
  manager: EntityManager,
  roster: RosterView,
  task: Task,
  draft: TaskDraft,
): Promise<void> {
  const { id } = task;
  await refuseUnsound(manager, roster, task.organisationId, draft, id);
  const columns = {
    ...taskColumns(draft),
    droppedAt: null,
    dropReason: null,
    version: task.version + 1,
  };
  Object.assign(task, columns);
  await manager.update(Task, { id }, columns);
  for (const part of [Seat, TaskTool, TaskOpening]) await manager.delete(part, { taskId: id });
  await writeParts(manager, task, draft);
}

/** Takes a task out of the scope; what was done on it stays on record. */
export async function setDropped(
  manager: EntityManager,
  task: Task,
  dropReason: string,
  droppedAt: number,
): Promise<void> {
  const columns = { droppedAt, dropReason, version: task.version + 1 };
  Object.assign(task, columns);
  await manager.update(Task, { id: task.id }, columns);
}

async function refuseUnsound(
  manager: EntityManager,
  roster: RosterView,
  organisationId: string,
  draft: TaskDraft,
  taskId: string | null,
): Promise<void> {
  refuseFaults(taskFaults(draft, await surroundingsOf(manager, organisationId, draft, roster)));
  refuseFaults(await openingFaults(manager, organisationId, draft, taskId));
}

async function writeParts(manager: EntityManager, task: Task, draft: TaskDraft): Promise<void> {
  const owner = { organisationId: task.organisationId, taskId: task.id };
  await insertAll(manager, Seat, seatRows(owner, draft.seats));
  await insertAll(manager, TaskTool, toolRows(owner, draft.tools));
  await insertAll(manager, TaskOpening, openingRows(owner, draft));
}
