import { insertAll, known, leaves } from '@ribband/crew';
import { newId } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { IsNull, type EntityManager } from 'typeorm';
import { z } from 'zod';
import { PinnedPace } from '../beliefs/pinned-pace.entity.js';
import { BaselineEntity } from '../record/baseline.entity.js';

const { byAt, day, list, moment, ref, words } = leaves;
const { fromMoment, toMoment } = leaves;

/** What people decided about plans. What is reckoned is reckoned anew. */
export const planBookForm = z.strictObject({
  /** Oldest first; the newest counts. */
  baselines: list(
    z.strictObject({
      name: words,
      keptOn: day,
      kept: byAt.unwrap(),
      readyAt: moment,
      gateAt: moment,
      /** Person-minutes, and when the plan wanted it done. */
      tasks: list(
        z.strictObject({ task: ref, startsAt: moment, endsAt: moment, minutes: z.number().min(0).max(1e9) }),
        20_000,
      ),
    }),
    100,
  ),
  /** Paces set by hand: pieces a person-hour. `kind` is what is counted and its range of paces. */
  paces: list(
    z.strictObject({
      kind: words,
      pace: z.number().positive().max(10_000),
      reason: words,
      pinned: byAt.unwrap(),
    }),
    500,
  ),
});

export type PlanBook = z.infer<typeof planBookForm>;

/** In the order of entry. A baseline is without tasks that were dropped since. */
export async function readPlanBook(manager: EntityManager, organisationId: string): Promise<PlanBook> {
  const inOrder = { where: { organisationId }, order: { id: 'ASC' } } as const;
  const live = await manager.findBy(Task, { organisationId, droppedAt: IsNull() });
  const tasks = new Map(live.map((task) => [task.id, task.ref]));
  return {
    baselines: (await manager.find(BaselineEntity, inOrder)).map(
      ({ name, keptOn, keptBy, madeAt, document }) => ({
        name,
        keptOn,
        kept: { at: toMoment(madeAt), by: keptBy },
        readyAt: toMoment(document.readyAt),
        gateAt: toMoment(document.gateAt),
        tasks: document.tasks.flatMap(({ taskId, startsAt, endsAt, minutes }) => {
          const task = tasks.get(taskId);
          return task === undefined
            ? []
            : [{ task, startsAt: toMoment(startsAt), endsAt: toMoment(endsAt), minutes }];
        }),
      }),
    ),
    paces: (await manager.find(PinnedPace, inOrder)).map(({ kind, pace, reason, pinnedAt, pinnedBy }) => ({
      kind,
      pace,
      reason,
      pinned: { at: toMoment(pinnedAt), by: pinnedBy },
    })),
  };
}

/** Puts it in the place of what is there; work that the yard has no more is left out. */
export async function writePlanBook(
  manager: EntityManager,
  organisationId: string,
  { baselines, paces }: PlanBook,
  tasks: ReadonlyMap<string, string>,
): Promise<void> {
  for (const entity of [BaselineEntity, PinnedPace]) await manager.delete(entity, { organisationId });
  const base = (kind: string) => ({ id: newId(kind), organisationId });
  await insertAll(
    manager,
    BaselineEntity,
    baselines.map(({ name, keptOn, kept, readyAt, gateAt, tasks: rows }) => ({
      ...base('baseline'),
      name,
      keptOn,
      keptBy: kept.by,
      madeAt: fromMoment(kept.at),
      document: {
        readyAt: fromMoment(readyAt),
        gateAt: fromMoment(gateAt),
        tasks: rows
          .filter(({ task }) => tasks.has(task))
          .map(({ task, startsAt, endsAt, minutes }) => ({
            taskId: known(tasks, task),
            startsAt: fromMoment(startsAt),
            endsAt: fromMoment(endsAt),
            minutes,
          })),
      },
    })),
  );
  await insertAll(
    manager,
    PinnedPace,
    paces.map(({ pinned, ...pace }) => ({
      ...base('pace'),
      ...pace,
      pinnedBy: pinned.by,
      pinnedAt: fromMoment(pinned.at),
    })),
  );
}
