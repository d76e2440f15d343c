import type { Problem } from '@ribband/engine';
import {
  type Board,
  effectiveTallies,
  SaySo,
  StockHold,
  TallyEntity,
  type Task,
  TaskOrigin,
} from '@ribband/repair';
import { AbsenceEntity, AttendanceEntity, TurnoutEntity } from '@ribband/roster';
import { In, IsNull, type EntityManager } from 'typeorm';
import type { TaskRecordOfPace, YardRecord } from './beliefs.js';

/** What the records say beside the problem: tallies, who came, work sent back, stock on its way. */
export async function readRecord(
  manager: EntityManager,
  organisationId: string,
  board: Board,
  problem: Problem,
): Promise<YardRecord> {
  const where = { organisationId };
  const tallies = effectiveTallies(await manager.find(TallyEntity, { where, order: { id: 'ASC' } })).map(
    ({ tally }) => tally,
  );
  const saySos = await manager.find(SaySo, { where });
  const origins = new Map((await manager.find(TaskOrigin, { where })).map((one) => [one.taskId, one]));
  const planned = new Set(problem.tasks.map(({ id }) => id));
  return {
    tasks: new Map(
      board.tasks.map((task) => [task.id, recordOf(task, board, origins.get(task.id), planned.has(task.id))]),
    ),
    tallies: grouped(tallies),
    turnouts: await heldTurnouts(manager, organisationId),
    shown:
      [...board.progress.values()].filter(({ doneAt }) => doneAt !== null).length + sentBackOf(saySos).length,
    sentBack: sentBackOf(saySos).map((said) => shareBack(said, board.task.get(said.taskId))),
    awaitsStock: new Set((await manager.find(StockHold, { where })).map(({ taskId }) => taskId)),
  };
}

/** The pace of its kind of work, and what is left; a task that came from a method's step shares its kind with others. */
function recordOf(
  task: Task,
  board: Board,
  origin: TaskOrigin | undefined,
  isPlanned: boolean,
): TaskRecordOfPace {
  const { low, likely, high } = task;
  const points = low === null || likely === null || high === null ? null : { low, likely, high };
  const isCounted = task.estimateBy === 'count';
  return {
    kind: origin ? `${origin.methodKey} ${origin.step}` : task.id,
    kindName: task.title,
    unit: task.unit,
    pace: isCounted ? points : null,
    left: !isPlanned ? null : task.kind === 'work' ? (board.progress.get(task.id)?.workLeft ?? null) : points,
  };
}

function grouped(tallies: readonly TallyEntity[]): YardRecord['tallies'] {
  const byTask = new Map<string, { count: number | null; minutes: number; day: string }[]>();
  for (const { taskId, count, minutes, workedOn } of tallies)
    byTask.set(taskId, [...(byTask.get(taskId) ?? []), { count, minutes, day: workedOn }]);
  return byTask;
}

const sentBackOf = (saySos: readonly SaySo[]) => saySos.filter(({ verdict }) => verdict === 'sent-back');

function shareBack({ countBack, minutesBack }: SaySo, task: Task | undefined): number {
  const of = task?.estimateBy === 'count' ? task.count : (task?.likely ?? null);
  const back = task?.estimateBy === 'count' ? countBack : minutesBack;
  return of ? Math.min(1, back / of) : 0;
}

/**
 * Turnouts at which it was written down who came. Whoever had said that they would not come is not counted, nor is a
 * turnout that was called off.
 */
async function heldTurnouts(manager: EntityManager, organisationId: string): Promise<YardRecord['turnouts']> {
  const came = await manager.findBy(AttendanceEntity, { organisationId });
  const missing = await manager.findBy(AbsenceEntity, { organisationId, saidSo: false });
  const ids = [...new Set(came.map(({ turnoutId }) => turnoutId))];
  const held = await manager.findBy(TurnoutEntity, { organisationId, id: In(ids), cancelledAt: IsNull() });
  return held.map(({ id }) => ({
    expected: [
      ...came.filter((one) => one.turnoutId === id).map((one) => ({ personId: one.volunteerId, came: true })),
      ...missing
        .filter((one) => one.turnoutId === id)
        .map((one) => ({ personId: one.volunteerId, came: false })),
    ],
  }));
}
