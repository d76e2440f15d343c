import { Audit, type Caller, permit } from '@ribband/access';
import {
  earnedFigures,
  earnedSchedule,
  executionIndex,
  pathLengthIndex,
  qualityPoints,
} from '@ribband/engine';
import { Database, instantToLocal, newId, RealClock, refuse } from '@ribband/platform';
import { type Board, YardBoard } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { staffRoles } from '../plans/plans.service.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { BaselineEntity } from './baseline.entity.js';
import { earnedSums, estimateMinutes, plannedCurve } from './earned.js';
import { qualitySentence } from './quality-words.js';
import type { Baseline, Measure, QualityHint, RecordModel } from './record.types.js';

const mostBaselines = 20;

/** Baselines, what is earned against them, and hints about the schedule. */
@Injectable()
export class Records {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(YardBoard) private readonly board: YardBoard,
  ) {}

  /** Keeps the plan in force to be measured against. */
  async keep(caller: Caller, name: string): Promise<Baseline> {
    permit(caller, 'director', 'shipwright');
    const { organisationId } = caller;
    if (name.trim() === '' || name.length > 120)
      refuse('BAD_INPUT', 'A baseline has a name.', {
        field: 'name',
        remedy: 'Such as “as agreed with the board”.',
      });
    return this.database.write(async (manager) => {
      const told = await this.shelf.inForce(organisationId, manager);
      if (!told?.plan)
        return refuse('NO_PLAN', 'There is no plan to keep yet.', { remedy: 'Wait until there is one.' });
      const board = await this.board.of(manager, organisationId);
      const { plan } = told;
      const row: BaselineEntity = {
        id: newId('baseline'),
        organisationId,
        name: name.trim(),
        keptOn: instantToLocal(board.now, board.timeZone).day,
        keptBy: caller.name,
        madeAt: this.clock.now(),
        document: {
          readyAt: told.instant(plan.ready),
          gateAt: told.instant(told.problem.aim.gate),
          tasks: told.problem.tasks.flatMap(({ id }, i) => {
            const task = board.task.get(id);
            const times = plan.tasks[i];
            if (!task || !times || task.droppedAt !== null) return [];
            return [
              {
                taskId: id,
                startsAt: told.instant(times.start),
                endsAt: told.instant(times.end),
                minutes: estimateMinutes(task),
              },
            ];
          }),
        },
      };
      const same = await manager.findOneBy(BaselineEntity, { organisationId, name: row.name });
      if (same)
        refuse('ALREADY_EXISTS', `“${same.name}” was kept by ${same.keptBy} on ${same.keptOn}.`, {
          field: 'name',
          remedy: 'Look at it on the record, or call this one otherwise.',
        });
      await manager.insert(BaselineEntity, row);
      await this.audit.note(manager, caller, 'keepBaseline', row.id, { name: row.name });
      return baselineOf(row, board.timeZone);
    }, `baselines ${organisationId}`);
  }

  /** @returns the record, with the ids of the tasks that its hints name */
  async read(
    caller: Caller,
  ): Promise<Omit<RecordModel, 'hints'> & { hints: (Omit<QualityHint, 'tasks'> & { taskIds: string[] })[] }> {
    permit(caller, ...staffRoles);
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const told = await this.shelf.inForce(organisationId, manager);
      const board = await this.board.of(manager, organisationId);
      const kept = await this.baselines(manager, organisationId);
      const newest = kept[0] ?? null;
      return {
        baselines: kept.map((row) => baselineOf(row, board.timeZone)),
        ...(newest ? against(newest, board, told) : { sentence: noBaseline, measures: pathMeasures(told) }),
        hints: hintsOf(told, newest),
      };
    });
  }

  private baselines(manager: EntityManager, organisationId: string): Promise<BaselineEntity[]> {
    return manager.find(BaselineEntity, {
      where: { organisationId },
      order: { id: 'DESC' },
      take: mostBaselines,
    });
  }
}

const noBaseline =
  'No baseline is kept yet: keep the plan in force as one, and the work is measured against it.';

function baselineOf({ id, name, keptOn, keptBy, document }: BaselineEntity, zone: string): Baseline {
  return { id, name, keptOn, keptBy, readyOn: instantToLocal(document.readyAt, zone).day };
}

function against(
  { document, name }: BaselineEntity,
  board: Board,
  told: ToldPlan | null,
): { sentence: string; measures: Measure[] } {
  const sums = earnedSums(document, board, board.now);
  const figures = earnedFigures(sums);
  const { startsAt, points } = plannedCurve(document, board);
  const schedule = earnedSchedule(points, sums.earned, (board.now - startsAt) / 60_000);
  const earnedAt = startsAt + (schedule?.earnedMinute ?? 0) * 60_000;
  const behind = Math.round((board.now - earnedAt) / 86_400_000);
  const isDone = (taskId: string) => Boolean(board.standing.get(taskId)?.doneAt);
  const wanted = document.tasks.filter(
    ({ taskId, endsAt }) => endsAt <= board.now && board.task.get(taskId)?.droppedAt === null,
  );
  const done = document.tasks.filter(({ taskId }) => isDone(taskId)).length;
  const hours = (minutes: number) => `${String(Math.round(minutes / 60))} hours`;
  const began = board.now > startsAt;
  const where = !began
    ? 'has not begun'
    : behind === 0
      ? 'is where it was to be'
      : `is ${String(Math.abs(behind))} days ${behind > 0 ? 'behind' : 'ahead'}`;
  return {
    sentence: `Measured by what is passed, the work ${where}, against “${name}”.`,
    measures: [
      measure(
        'Earned of planned hours (SPI)',
        figures.spi,
        `${hours(sums.earned)} earned of ${hours(sums.planned)} that were to be done by now, ${hours(sums.budget)} in all.`,
      ),
      measure(
        'Time earned of time gone, SPI(t)',
        schedule?.spiT ?? null,
        'Below 1 is behind, and stays so to the end.',
      ),
      measure('Earned of worked hours (CPI)', figures.cpi, `${hours(sums.actual)} were worked.`),
      measure(
        'Hours in all at this pace',
        figures.estimateAtCompletion === null ? null : Math.round(figures.estimateAtCompletion / 60),
        `The baseline had ${hours(sums.budget)}.`,
      ),
      measure('Pace that the rest needs (TCPI)', figures.toComplete, 'To stay within the baseline’s hours.'),
      measure(
        'Tasks done of those wanted by now (BEI)',
        executionIndex(done, wanted.length),
        `${String(done)} done; ${String(wanted.length)} were wanted by now.`,
      ),
      ...pathMeasures(told),
    ],
  };
}

function pathMeasures(told: ToldPlan | null): Measure[] {
  if (!told?.plan) return [];
  const { now, aim } = told.problem;
  const length = told.calendar.between(now, told.plan.ready);
  const float = told.calendar.between(told.plan.ready, aim.gate);
  const turnouts = Math.round((float / Math.max(1, told.longestTurnout)) * 10) / 10;
  return [
    measure(
      'Length of the way to the gate (CPLI)',
      pathLengthIndex(length, float),
      `${String(turnouts)} turnouts to spare if everyone comes; 0.95 is the usual least.`,
    ),
  ];
}

const measure = (name: string, value: number | null, says: string): Measure => ({
  name,
  value: value === null ? null : Math.round(value * 1000) / 1000,
  says,
});

function hintsOf(
  told: ToldPlan | null,
  baseline: BaselineEntity | null,
): (Omit<QualityHint, 'tasks'> & { taskIds: string[] })[] {
  if (!told?.plan) return [];
  const wishes = baseline?.document.tasks.flatMap(({ taskId, endsAt }) => {
    const task = told.indexOf(taskId);
    return task === undefined ? [] : [{ task, end: Math.round((endsAt - told.input.epochAt) / 60_000) }];
  });
  return qualityPoints(told.problem, told.plan, wishes ?? null).map((point) => ({
    sentence: qualitySentence(point),
    holds: point.holds,
    taskIds: point.tasks.slice(0, 20).map((task) => told.taskId(task)),
    named: point.tasks.length,
  }));
}
