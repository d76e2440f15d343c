import { instantToLocal } from '@ribband/platform';
import { type Board, deliveryDelays, SaySo, type Task, TallyEntity, effectiveTallies } from '@ribband/repair';
import type { EntityManager } from 'typeorm';
import type { TaskExperience, YardExperience } from './beliefs.js';
import { whoCame } from './coming.js';
import { PinnedPace } from './pinned-pace.entity.js';

/** The kind of a counted work: what is counted, and at which range of paces the method puts it. */
export function kindOf({ estimateBy, unit, low, likely, high }: Task): TaskExperience['kind'] {
  if (estimateBy !== 'count' || unit === null || low === null || likely === null || high === null)
    return null;
  return { key: `${unit} ${String(low)} to ${String(high)}`, name: unit, low, likely, high };
}

/** Reads what the yard's records say of how things go: tallies, say-sos, who came. */
export async function readExperience(
  manager: EntityManager,
  organisationId: string,
  board: Board,
): Promise<YardExperience> {
  const inOrder = { where: { organisationId }, order: { id: 'ASC' } } as const;
  const saySos = await manager.find(SaySo, inOrder);
  const pins = await manager.findBy(PinnedPace, { organisationId });
  return {
    tasks: new Map(board.tasks.map((task) => [task.id, experienceOf(task, board)])),
    tallies: talliesByKind(board, await manager.find(TallyEntity, inOrder)),
    pinned: new Map(pins.map(({ kind, pace, reason }) => [kind, { pace, reason }])),
    ...(await whoCame(manager, organisationId, board.now)),
    deliveryDelays: await deliveryDelays(
      manager,
      organisationId,
      instantToLocal(board.now, board.timeZone).day,
    ),
    shown: new Set(saySos.map(({ taskId }) => taskId)).size,
    sentBack: saySos.flatMap(({ verdict, taskId, countBack, minutesBack }) => {
      const whole = board.task.get(taskId);
      if (verdict !== 'sent-back' || !whole) return [];
      const all = whole.estimateBy === 'count' ? (whole.count ?? 0) : (whole.likely ?? 0);
      const back = whole.estimateBy === 'count' ? countBack : minutesBack;
      return all > 0 ? [Math.min(1, back / all)] : [];
    }),
  };
}

function experienceOf(task: Task, board: Board): TaskExperience {
  const kind = kindOf(task);
  if (kind) return { kind, points: null };
  const { low, likely, high, estimateBy } = task;
  const left = board.progress.get(task.id)?.workLeft ?? null;
  if (estimateBy === 'work') return { kind: null, points: left && left.high > left.low ? left : null };
  const begun = board.standing.get(task.id)?.begunAt ?? null;
  if (estimateBy !== 'time' || begun !== null || low === null || likely === null || high === null)
    return { kind: null, points: null };
  return { kind: null, points: high > low ? { low, likely, high } : null };
}

/** What each kind of work came to, one entry a day, in order of days. */
function talliesByKind(board: Board, rows: readonly TallyEntity[]): YardExperience['tallies'] {
  const days = new Map<string, Map<string, { count: number; hours: number }>>();
  for (const { tally } of effectiveTallies(rows)) {
    const task = board.task.get(tally.taskId);
    const kind = task ? kindOf(task) : null;
    if (!kind || tally.count === null || tally.minutes <= 0) continue;
    const ofKind = days.get(kind.key) ?? new Map<string, { count: number; hours: number }>();
    const day = ofKind.get(tally.workedOn) ?? { count: 0, hours: 0 };
    ofKind.set(tally.workedOn, { count: day.count + tally.count, hours: day.hours + tally.minutes / 60 });
    days.set(kind.key, ofKind);
  }
  return new Map(
    [...days].map(([key, ofKind]) => [
      key,
      [...ofKind].sort(([a], [b]) => a.localeCompare(b)).map(([, day]) => day),
    ]),
  );
}
