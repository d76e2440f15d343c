import { Audit, permit, type Caller } from '@ribband/access';
import { freeRef, insertAll, refuseFaults, whatIsGiven } from '@ribband/crew';
import { Database, expectVersion, refuse, Revisions, YardClock } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { RosterView } from '../roster-view/roster-view.js';
import { seatFaults } from './seat-faults.js';
import { Seat } from './seat.entity.js';
import type { SeatDraft, TaskDraft } from './task-draft.js';
import { mostEntries } from './task-faults.js';
import { seatRows } from './task-row.js';
import { surroundingsOf } from './task-surroundings.js';
import { insertTask, overwriteTask, setDropped } from './task-writing.js';
import { Task } from './task.entity.js';
import { liveTaskOf, readDraft } from './task.records.js';

/** Changes to what is to be done. */
@Injectable()
export class Tasks {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RosterView) private readonly roster: RosterView,
    @Inject(YardClock) private readonly clock: YardClock,
  ) {}

  async add(caller: Caller, draft: TaskDraft): Promise<Task> {
    return this.database.write((manager) => this.addIn(manager, caller, draft));
  }

  /** The same inside another use case. */
  async addIn(manager: EntityManager, caller: Caller, draft: TaskDraft): Promise<Task> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    const { organisationId } = caller;
    const ref = await freeRef(manager, Task, organisationId, draft.title);
    const task = await insertTask(manager, this.roster, organisationId, ref, draft);
    await this.changed(manager, caller, 'addTask', task);
    return task;
  }

  /** @param changes fields that are absent stay as they are */
  async edit(caller: Caller, id: string, version: number, changes: Partial<TaskDraft>): Promise<Task> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const task = await liveTaskOf(manager, organisationId, id);
      expectVersion(task, version);
      const given = whatIsGiven(changes);
      const draft: TaskDraft = { ...(await readDraft(manager, task)), ...given };
      const before = { notBefore: task.notBefore, held: task.held };
      await overwriteTask(manager, this.roster, task, draft);
      await this.changed(manager, caller, 'editTask', task, {
        fields: Object.keys(given),
        ...whatMoved(before, draft),
      });
      return task;
    });
  }

  /** Puts a whole new set of seats in the place of the old one. */
  async setSeats(caller: Caller, id: string, version: number, seats: SeatDraft[]): Promise<Task> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    const { organisationId } = caller;
    if (seats.length > mostEntries.seats)
      refuse('BAD_INPUT', `${seats.length} kinds of seats are too many.`, {
        field: 'seats',
        remedy: `At most ${mostEntries.seats}.`,
      });
    return this.database.write(async (manager) => {
      const task = await liveTaskOf(manager, organisationId, id, 'taskId');
      expectVersion(task, version);
      const none = { cards: [], tools: [], opens: [], closes: [] };
      const around = await surroundingsOf(manager, organisationId, { ...none, seats }, this.roster);
      const crew = { min: task.crewMin, efficient: task.crewEfficient, max: task.crewMax };
      refuseFaults(seatFaults({ kind: task.kind, seats, crew }, around));
      await manager.delete(Seat, { taskId: id });
      await insertAll(manager, Seat, seatRows({ organisationId, taskId: id }, seats));
      task.version += 1;
      await manager.update(Task, { id }, { version: task.version });
      await this.changed(manager, caller, 'setSeats', task, { seats: seats.length });
      return task;
    });
  }

  /**
   * Takes a task out of the scope; what was done on it stays on record, and it keeps nothing waiting any more. Of a
   * say-so only the shipwright says that it is not needed.
   */
  async drop(caller: Caller, id: string, version: number, reason: string): Promise<Task> {
    permit(caller, 'director', 'shipwright');
    const dropReason = reason.trim();
    if (dropReason === '' || dropReason.length > 500)
      refuse('BAD_INPUT', 'People will want to know why.', {
        field: 'reason',
        remedy: 'Say it in 1 to 500 characters.',
      });
    return this.database.write(async (manager) => {
      const task = await liveTaskOf(manager, caller.organisationId, id);
      expectVersion(task, version);
      refuseToDrop(caller, task, dropReason);
      await setDropped(manager, task, dropReason, await this.clock.now(caller.organisationId, manager));
      await this.changed(manager, caller, 'dropTask', task, { reason: dropReason });
      return task;
    });
  }

  private async changed(
    manager: EntityManager,
    caller: Caller,
    operation: string,
    task: Task,
    facts: Record<string, unknown> = {},
  ): Promise<void> {
    await this.revisions.requestPlan(manager, caller.organisationId, `${operation}: ${task.title}`);
    await this.audit.note(manager, caller, operation, task.id, facts);
  }
}

/** What people stand behind is not dropped with a word, and the launch not at all. */
function refuseToDrop(caller: Caller, { kind, title }: Task, reason: string): void {
  if (kind === 'launch')
    refuse('BAD_INPUT', `“${title}” is what all the other work is for.`, {
      field: 'id',
      remedy: 'Drop other work.',
    });
  if (kind !== 'hold') return;
  permit(caller, 'shipwright');
  if (reason.length < leastForHold)
    refuse(
      'BAD_INPUT',
      `“${title}” has to be said by somebody; it is dropped with a reason that others can follow.`,
      {
        field: 'reason',
        remedy: `Write why it is not needed any more, in ${leastForHold} to 500 characters.`,
      },
    );
}

/** As for a structural limit that is set aside. */
const leastForHold = 10;

type Waiting = Pick<TaskDraft, 'notBefore' | 'held'>;

/** What keeps a task from beginning, where that changed: people will ask why a date moved. */
function whatMoved(before: Waiting, after: Waiting): Record<string, unknown> {
  const moved = (['notBefore', 'held'] as const).filter((field) => before[field] !== after[field]);
  return Object.fromEntries(moved.map((field) => [field, { from: before[field], to: after[field] }]));
}
