import type { MethodTask } from '@ribband/hull';
import { insertAll } from '@ribband/crew';
import { newId } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { TaskOrigin } from './task-origin.entity.js';

/** Notes of each of these tasks which method made it. */
export async function writeOrigins(
  manager: EntityManager,
  organisationId: string,
  made: readonly MethodTask[],
  taskId: (ref: string) => string,
): Promise<void> {
  await insertAll(
    manager,
    TaskOrigin,
    made.map(({ ref, element, step, method }) => ({
      id: newId('origin'),
      organisationId,
      taskId: taskId(ref),
      element,
      step,
      methodKey: method.key,
      methodVersion: method.version,
    })),
  );
}
