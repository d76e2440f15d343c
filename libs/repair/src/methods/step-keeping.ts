import type { Step } from '@ribband/hull';
import type { EntityManager } from 'typeorm';
import type { HoldPoint } from '../hold-points/hold-point.entity.js';
import type { HullSupport } from '../openings/hull-support.entity.js';
import type { Task } from '../tasks/task.entity.js';
import { MethodsRecord } from './methods.entity.js';
import type { MethodsDocument } from './methods-shape.js';
import { TaskOrigin } from './task-origin.entity.js';

/** What the steps of the methods say of their tasks: whose eyes a say-so waits for, what a piece of work sets. */
export interface StepKeeping {
  holdPoints: HoldPoint[];
  supports: HullSupport[];
}

/** Of all tasks that a method made, and of the yard's own that stand for a step. */
export async function stepKeeping(
  manager: EntityManager,
  organisationId: string,
  tasks: readonly Task[],
): Promise<StepKeeping> {
  const record = await manager.findOne(MethodsRecord, { where: { organisationId }, order: { id: 'DESC' } });
  if (!record) return { holdPoints: [], supports: [] };
  const origins = await manager.findBy(TaskOrigin, { organisationId });
  return keepingOf(record.methods, origins, tasks);
}

export function keepingOf(
  methods: MethodsDocument,
  origins: readonly Pick<TaskOrigin, 'taskId' | 'methodKey' | 'step'>[],
  tasks: readonly Pick<Task, 'id' | 'ref' | 'organisationId' | 'kind'>[],
): StepKeeping {
  const stepOf = new Map<string, Step>();
  for (const { key, steps } of methods.book.methods)
    for (const step of steps) stepOf.set(`${key} ${step.key}`, step);
  const byTask = new Map(origins.map((one) => [one.taskId, stepOf.get(`${one.methodKey} ${one.step}`)]));
  const vessel = methods.book.methods
    .filter((method) => method.for === 'vessel')
    .flatMap(({ steps }) => steps);
  const ownStep = new Map(
    Object.entries(methods.ownTasks).map(([step, own]) => [
      own,
      vessel.find(({ key }) => `vessel-${key}` === step),
    ]),
  );
  const keeping: StepKeeping = { holdPoints: [], supports: [] };
  for (const { id: taskId, ref, organisationId, kind } of tasks) {
    const step = byTask.get(taskId) ?? ownStep.get(ref);
    if (step?.eyes && kind === 'hold')
      keeping.holdPoints.push({
        id: `holdpoint_${taskId}`,
        organisationId,
        taskId,
        eyes: step.eyes,
        noticeDays: step.noticeDays ?? 0,
        noticeOn: null,
        noticeBy: null,
        seenOn: null,
        seenBy: null,
        note: null,
      });
    if (step?.sets)
      keeping.supports.push({
        id: `support_${taskId}`,
        organisationId,
        ref,
        version: 1,
        kind: step.sets,
        side: null,
        firstFrame: null,
        lastFrame: null,
        taskId,
        seenOn: null,
        seenBy: null,
        struckOn: null,
        struckBy: null,
      });
  }
  return keeping;
}

/** What is written down outdoes what the step says. */
export function writtenFirst<T extends { taskId: string | null }>(written: T[], fromSteps: T[]): T[] {
  const known = new Set(written.map((one) => one.taskId));
  return [...written, ...fromSteps.filter((one) => !known.has(one.taskId))];
}
