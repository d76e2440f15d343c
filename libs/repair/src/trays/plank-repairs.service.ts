import { Audit, permit, type Caller } from '@ribband/access';
import { Skill } from '@ribband/crew';
import { Database, newId, refuse, YardClock } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { Links } from '../links/links.service.js';
import type { TaskDraft } from '../tasks/task-draft.js';
import { Task } from '../tasks/task.entity.js';
import { Tasks } from '../tasks/tasks.service.js';
import { wordsOf } from '../words.js';
import { PlankRepair } from './plank-repair.entity.js';
import { standingOf } from './tray-standing.js';
import type { Tray } from './tray.entity.js';
import { entriesOf, trayOf } from './tray.records.js';

/** A graving piece let in where a head came through: pieces an hour for one person. Common practice, no source. */
const repairsAnHour = { low: 0.5, likely: 1, high: 2 };
const mostWords = 500;

/** Heads that came through a plank ask for a repair of it; the shipwright says whether it gets one. */
@Injectable()
export class PlankRepairs {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardClock) private readonly yardClock: YardClock,
    @Inject(Tasks) private readonly tasks: Tasks,
    @Inject(Links) private readonly links: Links,
  ) {}

  /** Makes a task of the repair, after the plank is off and before it is hung again. */
  async confirm(caller: Caller, trayId: string): Promise<Tray> {
    permit(caller, 'shipwright');
    return this.database.write(async (manager) => {
      const { tray, waiting } = await this.waitingOf(manager, caller, trayId);
      const task = await this.tasks.addIn(manager, caller, await draftFor(manager, tray, waiting));
      await this.tie(manager, caller, tray, task);
      await this.decide(manager, caller, tray, waiting, { taskRef: task.ref, reason: null });
      return tray;
    });
  }

  /** Nothing is to be done about it, for a reason that is written down. */
  async decline(caller: Caller, trayId: string, why: string): Promise<Tray> {
    permit(caller, 'shipwright');
    const reason = wordsOf(why, 'reason', mostWords, 'Why the plank needs no repair');
    return this.database.write(async (manager) => {
      const { tray, waiting } = await this.waitingOf(manager, caller, trayId);
      await this.decide(manager, caller, tray, waiting, { taskRef: null, reason });
      return tray;
    });
  }

  private async waitingOf(
    manager: EntityManager,
    caller: Caller,
    trayId: string,
  ): Promise<{ tray: Tray; waiting: number }> {
    const tray = await trayOf(manager, caller.organisationId, trayId, 'trayId');
    const standing = standingOf(tray, await entriesOf(manager, tray.id));
    const heads = 'fault' in standing ? 0 : standing.balance.plankRepairs;
    const waiting = repairsWaiting(heads, await manager.findBy(PlankRepair, { trayId: tray.id }));
    if (waiting === 0)
      refuse('TASK_NOT_READY', `No head that came through waits for a word at tray ${tray.name}.`, {
        field: 'trayId',
        remedy: 'Read the tray again.',
      });
    return { tray, waiting };
  }

  /** Where the plank's own tasks are there: once it lies off, and before it is hung or driven. */
  private async tie(manager: EntityManager, caller: Caller, tray: Tray, task: Task): Promise<void> {
    const { organisationId } = caller;
    const find = (step: string): Promise<Task | null> =>
      manager.findOneBy(Task, { organisationId, ref: `${tray.elementKey}-${step}` });
    const live = (found: Task | null): Task | null => (found?.droppedAt === null ? found : null);
    const before = live(await find('lift-off')) ?? live(await find('pull-nails'));
    const after = live(await find('steam-hang')) ?? live(await find('drive-nails'));
    const tied = { relation: 'finish-to-start', lagMinutes: 0, lagKind: 'working' } as const;
    if (before) await this.links.addIn(manager, caller, { beforeId: before.id, afterId: task.id, ...tied });
    if (after) await this.links.addIn(manager, caller, { beforeId: task.id, afterId: after.id, ...tied });
  }

  private async decide(
    manager: EntityManager,
    caller: Caller,
    tray: Tray,
    count: number,
    said: Pick<PlankRepair, 'taskRef' | 'reason'>,
  ): Promise<void> {
    const { organisationId, name } = caller;
    const row: PlankRepair = {
      id: newId('plankrepair'),
      organisationId,
      trayId: tray.id,
      count,
      verdict: said.taskRef === null ? 'declined' : 'confirmed',
      ...said,
      decidedBy: name,
      yardAt: await this.yardClock.now(organisationId, manager),
    };
    await manager.insert(PlankRepair, row);
    await this.audit.note(manager, caller, 'decidePlankRepair', tray.id, { count, ...said });
  }
}

/** Heads that came through and that the shipwright has not spoken of yet. */
export const repairsWaiting = (heads: number, decided: readonly Pick<PlankRepair, 'count'>[]): number =>
  Math.max(0, heads - decided.reduce((sum, one) => sum + one.count, 0));

async function draftFor(manager: EntityManager, tray: Tray, count: number): Promise<TaskDraft> {
  const { organisationId } = tray;
  const planker = await manager.findOneBy(Skill, { organisationId, ref: 'planker' });
  return {
    title: `${tray.place.charAt(0).toUpperCase()}${tray.place.slice(1)}: mend where ${count} ${
      count === 1 ? 'head' : 'heads'
    } came through`,
    kind: 'work',
    position: tray.place,
    estimate: { by: 'count', unit: 'repairs', count, perPersonHour: repairsAnHour },
    crew: { min: 1, efficient: 1, max: 2 },
    seats: planker ? [{ skill: planker.id, level: 2, count: 1, cards: [] }] : [],
    cards: [],
    leastAge: null,
    oneGo: false,
    setUpMinutes: 0,
    extraHandShare: 0.5,
    learnerShare: 0.5,
    tools: [],
    opens: [],
    closes: [],
    hazards: ['eye', 'dust', 'lead'],
    cautions: [],
    notBefore: null,
    held: null,
  };
}
