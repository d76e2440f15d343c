import { Skill, Volunteer } from '@ribband/crew';
import { refuse } from '@ribband/platform';
import { Task, Tool } from '@ribband/repair';
import { In, type EntityManager } from 'typeorm';
import type { Supposed } from './supposed.js';

/**
 * Refuses changes that name what the yard does not have, and what nobody leaves out just to be sooner.
 * @throws RefusalError naming the field of the change
 */
export async function refuseUnsound(
  manager: EntityManager,
  organisationId: string,
  changes: readonly Supposed[],
): Promise<void> {
  for (const [index, change] of changes.entries()) {
    const at = (field: string) => `changes.${String(index)}.${field}`;
    const known = async (
      entity: typeof Skill | typeof Tool | typeof Volunteer,
      id: string,
      field: string,
    ) => {
      if (await manager.existsBy<Skill | Tool | Volunteer>(entity, { organisationId, id })) return;
      refuse('NOT_FOUND', 'There is nothing of that id here.', {
        field: at(field),
        remedy: 'Choose from the list.',
      });
    };
    switch (change.kind) {
      case 'drop':
        for (const task of await tasksOf(manager, organisationId, change.taskIds, at('taskIds')))
          refuseToLeaveOut(task, at('taskIds'));
        break;
      case 'late':
      case 'sooner':
        await tasksOf(manager, organisationId, change.taskIds, at('taskIds'));
        break;
      case 'recruit':
        await known(Skill, change.skillId, 'skillId');
        break;
      case 'tool':
        await known(Tool, change.toolId, 'toolId');
        break;
      case 'train':
        await known(Skill, change.skillId, 'skillId');
        await known(Volunteer, change.volunteerId, 'volunteerId');
        await known(Volunteer, change.trainerId, 'trainerId');
        break;
      case 'turnouts':
        break;
    }
  }
}

/** A say-so is asked for by whoever answers for the work: time is no reason to go without, nor to go without the launch. */
export function refuseToLeaveOut({ kind, title }: Pick<Task, 'kind' | 'title'>, field: string): void {
  if (kind === 'hold')
    refuse('BAD_INPUT', `“${title}” has to be said by somebody: that is not left out to be sooner.`, {
      field,
      remedy: 'If it is not needed any more, the shipwright takes it out of the scope, with the reason.',
    });
  if (kind === 'launch')
    refuse('BAD_INPUT', `“${title}” is what all the other work is for: it is not left out.`, {
      field,
      remedy: 'Leave out other work.',
    });
}

async function tasksOf(
  manager: EntityManager,
  organisationId: string,
  taskIds: readonly string[],
  field: string,
): Promise<Task[]> {
  const ids = [...new Set(taskIds)];
  const tasks = await manager.findBy(Task, { organisationId, id: In(ids) });
  if (tasks.length < ids.length)
    refuse('NOT_FOUND', 'There is no such task.', { field, remedy: 'Choose one from the list.' });
  const dropped = tasks.find(({ droppedAt }) => droppedAt !== null);
  if (dropped)
    refuse('TASK_NOT_READY', `“${dropped.title}” is left out already.`, {
      field,
      remedy: 'Choose work that is in the scope.',
    });
  return tasks;
}
