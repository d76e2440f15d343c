import { Audit, permit, type Caller } from '@ribband/access';
import { freeRef, insertAll, refuseFaults, whatIsGiven } from '@ribband/crew';
import { Database, expectVersion, newId, RealClock, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { RosterView } from '../roster-view/roster-view.js';
import { seatFaults } from './seat-faults.js';
import { Seat } from './seat.entity.js';
import type { SeatDraft, TaskDraft } from './task-draft.js';
import { mostEntries, taskFaults } from './task-faults.js';
import { TaskOpening } from './task-opening.entity.js';
import { openingRows, seatRows, taskColumns, toolRows } from './task-row.js';
import { openingFaults, surroundingsOf } from './task-surroundings.js';
import { TaskTool } from './task-tool.entity.js';
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
    @Inject(RealClock) private readonly clock: RealClock,
  ) {}

  async add(caller: Caller, draft: TaskDraft): Promise<Task> {
    return this.database.write((manager) => this.addIn(manager, caller, draft));
  }

  /** The same inside another use case. */
  async addIn(manager: EntityManager, caller: Caller, draft: TaskDraft): Promise<Task> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    const { organisationId } = caller;
    await this.refuseUnsound(manager, organisationId, draft, null);
    const task: Task = {
      id: newId('task'),
      organisationId,
      ref: await freeRef(manager, Task, organisationId, draft.title),
      version: 1,
      ...taskColumns(draft),
      startedOn: null,
      endedOn: null,
      droppedAt: null,
      dropReason: null,
    };
    await manager.insert(Task, task);
    await writeParts(manager, task, draft);
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
      await this.refuseUnsound(manager, organisationId, draft, id);
      Object.assign(task, taskColumns(draft), { version: version + 1 });
      await manager.update(Task, { id }, { ...taskColumns(draft), version: task.version });
      for (const part of [Seat, TaskTool, TaskOpening]) await manager.delete(part, { taskId: id });
      await writeParts(manager, task, draft);
      await this.changed(manager, caller, 'editTask', task, { fields: Object.keys(given) });
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

  /** Takes a task out of the scope; what was done on it stays on record, and it keeps nothing waiting any more. */
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
      Object.assign(task, { droppedAt: this.clock.now(), dropReason, version: version + 1 });
      const { droppedAt, version: now } = task;
      await manager.update(Task, { id }, { droppedAt, dropReason, version: now });
      await this.changed(manager, caller, 'dropTask', task, { reason: dropReason });
      return task;
    });
  }

  private async refuseUnsound(
    manager: EntityManager,
    organisationId: string,
    draft: TaskDraft,
    taskId: string | null,
  ): Promise<void> {
    refuseFaults(taskFaults(draft, await surroundingsOf(manager, organisationId, draft, this.roster)));
    refuseFaults(await openingFaults(manager, organisationId, draft, taskId));
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

async function writeParts(manager: EntityManager, task: Task, draft: TaskDraft): Promise<void> {
  const owner = { organisationId: task.organisationId, taskId: task.id };
  await insertAll(manager, Seat, seatRows(owner, draft.seats));
  await insertAll(manager, TaskTool, toolRows(owner, draft.tools));
  await insertAll(manager, TaskOpening, openingRows(owner, draft));
}
