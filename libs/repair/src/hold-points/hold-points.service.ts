import { Audit, permit, type Caller } from '@ribband/access';
import type { Eyes } from '@ribband/hull';
import { addDays, Database, instantToLocal, isDay, newId, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { HullDay, type HullToday } from '../openings/hull-today.js';
import { wordsGiven } from '../words.js';
import { liveTaskOf } from '../tasks/task.records.js';
import type { Task } from '../tasks/task.entity.js';
import { HoldPoint } from './hold-point.entity.js';

/** A hold point with its task and the days that the plan gives it. */
export interface HoldPointToday {
  point: HoldPoint;
  task: Task;
  /** By the plan; null where the task is passed or the plan leaves it out. */
  plannedOn: string | null;
  /** The day by which notice has to go out, for the plan's day to be kept; null where it has, or none is wanted. */
  noticeBy: string | null;
  isLate: boolean;
  isPassed: boolean;
}

/** Eyes that must see the work before it is closed over or cut free. */
@Injectable()
export class HoldPoints {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(HullDay) private readonly days: HullDay,
  ) {}

  /** All, by the day that the plan gives them. */
  list(caller: Caller): Promise<HoldPointToday[]> {
    return this.database.snapshot(async (manager) => {
      const today = await this.days.of(manager, caller.organisationId);
      return today.holdPoints
        .flatMap((point) => pointToday(point, today) ?? [])
        .sort((a, b) => (a.plannedOn ?? '9').localeCompare(b.plannedOn ?? '9'));
    });
  }

  /**
   * Binds eyes to a hold task, or changes whose and with how many days of notice. Other eyes were not told and have
   * seen nothing.
   * @param reason why a sling need not be seen any more; the shipwright's
   */
  async bind(
    caller: Caller,
    taskId: string,
    eyes: Eyes,
    noticeDays: number,
    reason: string | null = null,
  ): Promise<HoldPointToday> {
    permit(caller, 'shipwright', 'director');
    if (!Number.isInteger(noticeDays) || noticeDays < 0 || noticeDays > 180)
      refuse('BAD_INPUT', `${noticeDays} days is no notice.`, {
        field: 'noticeDays',
        remedy: 'A whole number from 0 to 180.',
      });
    const remedy = 'Why nobody need see the sling and the cleared zone.';
    const why = reason === null ? null : wordsGiven(reason, 'reason', 10, 500, remedy);
    const to = (point: HoldPoint, task: Task): HoldPoint => {
      if (task.kind !== 'hold')
        refuse('BAD_INPUT', `"${task.title}" is work: eyes are bound to a say-so.`, {
          field: 'taskId',
          remedy: 'Add a say-so before what it hides, and link it.',
        });
      if (point.eyes === eyes) return { ...point, noticeDays };
      if (point.eyes === 'sling') {
        permit(caller, 'shipwright');
        if (why === null) wordsGiven('', 'reason', 10, 500, remedy);
      }
      return { ...unbound(point.organisationId, taskId), id: point.id, eyes, noticeDays };
    };
    const [changed] = await this.change(caller, 'bindHoldPoint', [taskId], to, why);
    return changed as HoldPointToday;
  }

  /** Writes down that those who have to see it were told, and by whom. */
  async notice(caller: Caller, taskIds: string[], on: string, by: string): Promise<HoldPointToday[]> {
    permit(caller, 'shipwright', 'director', 'coordinator');
    const noticeBy = wordsGiven(by, 'by', 2, 200, 'The name of who told them.');
    return this.change(caller, 'giveNotice', taskIds, (point, _task, today) => {
      refuseUnlessPast(on, today.today);
      return { ...bound(point), noticeOn: on, noticeBy };
    });
  }

  /** Writes down who saw it and when. The shipwright passes the task after that. */
  async seen(
    caller: Caller,
    taskIds: string[],
    seen: { on: string; by: string; note: string | null },
  ): Promise<HoldPointToday[]> {
    permit(caller, 'shipwright');
    const seenBy = wordsGiven(seen.by, 'by', 2, 200, 'The name of who saw it.');
    const note = seen.note?.trim() ? wordsGiven(seen.note, 'note', 1, 500, 'A remark.') : null;
    return this.change(caller, 'seenAtHoldPoint', taskIds, (point, task, today) => {
      refuseUnlessPast(seen.on, today.today);
      if (today.board.standing.get(task.id)?.state === 'waiting')
        refuse('TASK_NOT_READY', `What stands before "${task.title}" is not done yet.`, {
          field: 'taskIds',
          remedy: 'Look at what it waits for.',
        });
      return { ...bound(point), seenOn: seen.on, seenBy, note };
    });
  }

  /** All of them or, where one is refused, none. */
  private async change(
    caller: Caller,
    operation: string,
    taskIds: string[],
    to: (point: HoldPoint, task: Task, today: HullToday) => HoldPoint,
    reason: string | null = null,
  ): Promise<HoldPointToday[]> {
    if (taskIds.length === 0 || taskIds.length > 100)
      refuse('BAD_INPUT', 'Which say-so?', { field: 'taskIds', remedy: 'From 1 to 100 of them.' });
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const today = await this.days.of(manager, organisationId);
      for (const taskId of taskIds) {
        const task = await liveTaskOf(manager, organisationId, taskId, 'taskIds');
        const known = today.holdPoints.find((one) => one.taskId === taskId);
        const changed = to(known ?? unbound(organisationId, taskId), task, today);
        await manager.save(HoldPoint, { ...changed, id: changed.id || newId('holdpoint') });
        const { eyes, noticeDays, noticeOn, noticeBy, seenOn, seenBy } = changed;
        const seen = { eyes, noticeDays, noticeOn, noticeBy, seenOn, seenBy };
        const facts = reason === null ? seen : { ...seen, reason };
        await this.audit.note(manager, caller, operation, taskId, facts);
      }
      await this.revisions.requestPlan(manager, organisationId, operation);
      return this.some(manager, organisationId, taskIds);
    });
  }

  private async some(
    manager: EntityManager,
    organisationId: string,
    taskIds: string[],
  ): Promise<HoldPointToday[]> {
    const today = await this.days.of(manager, organisationId);
    return today.holdPoints
      .filter(({ taskId }) => taskIds.includes(taskId))
      .flatMap((point) => pointToday(point, today) ?? []);
  }
}

const unbound = (organisationId: string, taskId: string): HoldPoint => ({
  id: '',
  organisationId,
  taskId,
  eyes: 'surveyor',
  noticeDays: 0,
  noticeOn: null,
  noticeBy: null,
  seenOn: null,
  seenBy: null,
  note: null,
});

function bound(point: HoldPoint): HoldPoint {
  if (point.id === '')
    refuse('NOT_FOUND', 'Nobody’s eyes are bound to this task.', {
      field: 'taskIds',
      remedy: 'Say first who has to see it.',
    });
  return point;
}

function refuseUnlessPast(on: string, today: string): void {
  if (isDay(on) && on <= today) return;
  refuse('BAD_INPUT', `${on} is no day on which that can have been.`, {
    field: 'on',
    remedy: `A day such as ${today}, not after it.`,
  });
}

function pointToday(point: HoldPoint, { board, planned, today }: HullToday): HoldPointToday | null {
  const task = board.task.get(point.taskId);
  if (!task || task.droppedAt !== null) return null;
  const isPassed = board.progress.get(task.id)?.stage === 'passed';
  const span = isPassed ? undefined : planned.get(task.id);
  const plannedOn = span ? instantToLocal(span.startsAt, board.timeZone).day : null;
  const wanted = !isPassed && point.seenBy === null && point.noticeOn === null && point.noticeDays > 0;
  const noticeBy = wanted && plannedOn !== null ? addDays(plannedOn, -point.noticeDays) : null;
  return { point, task, plannedOn, noticeBy, isLate: noticeBy !== null && noticeBy < today, isPassed };
}
