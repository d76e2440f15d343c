import { Audit, permit, type Caller } from '@ribband/access';
import { type Care, type CareChoice, careChoices, careRate, type MethodBook, withCare } from '@ribband/hull';
import { Database, newId, refuse, Revisions, YardClock } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { MethodsRecord } from '../methods/methods.entity.js';
import { bookOf } from '../methods/work-records.js';
import { Work } from '../methods/work.service.js';
import type { ThreePoint } from '../tasks/task-draft.js';
import type { Task } from '../tasks/task.entity.js';
import { Task as TaskEntity } from '../tasks/task.entity.js';
import { YardBoard } from '../tasks/yard-board.js';
import { wordsOf } from '../words.js';
import { CareChoiceEntity, cares } from './care-choice.entity.js';
import { Tray } from './tray.entity.js';

/** Kinds of fastenings for which care can be chosen, with the rate at which each is pulled. */
const pulledAt: Record<string, string> = {
  'plank nails': 'nails-pulled',
  'ceiling nails': 'ceiling-nails-pulled',
};

export interface CareSideBySide {
  fastening: string;
  /** Fastenings that nobody has begun to pull. */
  count: number;
  choices: (CareChoice & { perPersonHour: ThreePoint })[];
  chosen: CareChoiceEntity | null;
}

/** What a choice would change: the tasks that nobody has begun, and the rate that they would go at. */
export interface CareIfChosen {
  fastening: string;
  care: Care;
  rate: ThreePoint;
  tasks: Task[];
}

/** How carefully fastenings are treated: three ways side by side, and the shipwright's choice. */
@Injectable()
export class CareLevels {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardClock) private readonly yardClock: YardClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(YardBoard) private readonly boards: YardBoard,
    @Inject(Work) private readonly work: Work,
  ) {}

  async sideBySide(caller: Caller): Promise<CareSideBySide[]> {
    const { organisationId } = caller;
    const manager = this.database.read;
    const said = await manager.find(CareChoiceEntity, { where: { organisationId }, order: { id: 'ASC' } });
    const book = await this.bookOf(manager, organisationId);
    const found: CareSideBySide[] = [];
    for (const fastening of Object.keys(pulledAt)) {
      const untouched = await this.untouched(manager, organisationId, fastening);
      if (untouched === null) continue;
      const count = untouched.reduce((sum, task) => sum + (task.count ?? 0), 0);
      found.push({
        fastening,
        count,
        choices: careChoices(count, unsoundHoles, book).map((choice) => ({
          ...choice,
          perPersonHour: careRate(book, pulledAt[fastening] ?? '', choice.care),
        })),
        chosen: said.findLast((one) => one.fastening === fastening) ?? null,
      });
    }
    return found;
  }

  /** What each choice would change that can be made now; kinds of which all are begun are left out. */
  async ifChosen(manager: EntityManager, organisationId: string): Promise<CareIfChosen[]> {
    const book = await this.bookOf(manager, organisationId);
    const found: CareIfChosen[] = [];
    for (const [fastening, key] of Object.entries(pulledAt)) {
      const tasks = (await this.untouched(manager, organisationId, fastening)) ?? [];
      if (tasks.length > 0)
        found.push(...cares.map((care) => ({ fastening, care, rate: careRate(book, key, care), tasks })));
    }
    return found;
  }

  /**
   * Records the choice. The yard's methods get the rate that goes with it, so that the work follows from them however
   * often it is worked out anew; tasks that no method made get it where nobody has begun them.
   */
  async choose(caller: Caller, fastening: string, care: Care, why: string): Promise<CareChoiceEntity> {
    permit(caller, 'shipwright');
    const { organisationId, name } = caller;
    const reason = wordsOf(why, 'reason', 500, 'The reason of the choice');
    return this.database.write(async (manager) => {
      const untouched = await this.untouched(manager, organisationId, fastening);
      if (untouched === null)
        return refuse('BAD_INPUT', `There is no tray of "${fastening.slice(0, 60)}" to choose for.`, {
          field: 'fastening',
          remedy: `One of: ${Object.keys(pulledAt).join(', ')}, once trays are set up.`,
        });
      const rate = careRate(await this.bookOf(manager, organisationId), pulledAt[fastening] ?? '', care);
      const inMethods = await this.changeMethods(manager, caller, fastening, care, reason);
      const slower = (await this.untouched(manager, organisationId, fastening))?.filter(
        (task) => task.low !== rate.low || task.likely !== rate.likely || task.high !== rate.high,
      );
      for (const task of slower ?? [])
        await manager.update(TaskEntity, { id: task.id }, { ...rate, version: task.version + 1 });
      const row: CareChoiceEntity = {
        id: newId('care'),
        organisationId,
        fastening,
        care,
        reason,
        chosenBy: name,
        yardAt: await this.yardClock.now(organisationId, manager),
        tasksChanged: untouched.length,
      };
      await manager.insert(CareChoiceEntity, row);
      if (!inMethods && untouched.length > 0)
        await this.revisions.requestPlan(manager, organisationId, `chooseCare: ${fastening}, ${care}`);
      await this.audit.note(manager, caller, 'chooseCare', row.id, { fastening, care, reason });
      return row;
    });
  }

  private async bookOf(manager: EntityManager, organisationId: string): Promise<MethodBook> {
    return bookOf((await methodsOf(manager, organisationId))?.methods ?? null);
  }

  /** @returns whether the yard's methods have that rate, and what follows from them was changed */
  private async changeMethods(
    manager: EntityManager,
    caller: Caller,
    fastening: string,
    care: Care,
    reason: string,
  ): Promise<boolean> {
    const methods = await methodsOf(manager, caller.organisationId);
    const key = pulledAt[fastening] ?? '';
    if (!methods?.methods.book.rates.some((rate) => rate.key === key)) return false;
    const book = withCare(methods.methods.book, key, care);
    await this.work.applyIn(manager, caller, {
      methods: { value: { ...methods.methods, book }, version: methods.version },
      reason: `Care of ${fastening}: ${care}. ${reason}`,
    });
    return true;
  }

  /** Tasks at which fastenings of the kind come out and that nobody has begun; null without a tray of it. */
  private async untouched(
    manager: EntityManager,
    organisationId: string,
    fastening: string,
  ): Promise<Task[] | null> {
    if (!(fastening in pulledAt)) return null;
    const trays = await manager.findBy(Tray, { organisationId, fastening });
    if (trays.length === 0) return null;
    const refs = trays.flatMap((tray) => tray.pullRef ?? []);
    const tasks = await manager.findBy(TaskEntity, { organisationId, ref: In(refs), estimateBy: 'count' });
    const board = await this.boards.of(manager, organisationId);
    return tasks.filter(
      (task) => task.droppedAt === null && board.progress.get(task.id)?.stage === 'not begun',
    );
  }
}

const methodsOf = (manager: EntityManager, organisationId: string): Promise<MethodsRecord | null> =>
  manager.findOne(MethodsRecord, { where: { organisationId }, order: { id: 'DESC' } });

/** Share of holes thought to be plugged and bored anew even where the nail comes whole. Common practice, no source. */
const unsoundHoles = 0.1;
