import { Audit, permit, type Caller } from '@ribband/access';
import { type Care, type CareChoice, careChoices, type NamedRate, STARTING_BOOK } from '@ribband/hull';
import { Database, newId, refuse, Revisions, YardClock } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import type { ThreePoint } from '../tasks/task-draft.js';
import type { Task } from '../tasks/task.entity.js';
import { Task as TaskEntity } from '../tasks/task.entity.js';
import { YardBoard } from '../tasks/yard-board.js';
import { wordsOf } from '../words.js';
import { CareChoiceEntity } from './care-choice.entity.js';
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

/** How carefully fastenings are treated: three ways side by side, and the shipwright's choice. */
@Injectable()
export class CareLevels {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardClock) private readonly yardClock: YardClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(YardBoard) private readonly boards: YardBoard,
  ) {}

  async sideBySide(caller: Caller): Promise<CareSideBySide[]> {
    const { organisationId } = caller;
    const manager = this.database.read;
    const said = await manager.find(CareChoiceEntity, { where: { organisationId }, order: { id: 'ASC' } });
    const found: CareSideBySide[] = [];
    for (const fastening of Object.keys(pulledAt)) {
      const untouched = await this.untouched(manager, organisationId, fastening);
      if (untouched === null) continue;
      const count = untouched.reduce((sum, task) => sum + (task.count ?? 0), 0);
      found.push({
        fastening,
        count,
        choices: careChoices(count, unsoundHoles).map((choice) => ({
          ...choice,
          perPersonHour: pullRate(fastening, choice.care),
        })),
        chosen: said.findLast((one) => one.fastening === fastening) ?? null,
      });
    }
    return found;
  }

  /** Records the choice and gives the tasks that have not begun the rate that goes with it. */
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
      const rate = pullRate(fastening, care);
      for (const task of untouched)
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
      if (untouched.length > 0)
        await this.revisions.requestPlan(manager, organisationId, `chooseCare: ${fastening}, ${care}`);
      await this.audit.note(manager, caller, 'chooseCare', row.id, { fastening, care, reason });
      return row;
    });
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

/** Share of holes thought to be plugged and bored anew even where the nail comes whole. Common practice, no source. */
const unsoundHoles = 0.1;

const rateOf = (key: string): NamedRate => {
  const found = STARTING_BOOK.rates.find((rate) => rate.key === key);
  if (!found) throw new Error(`The starting book has no rate "${key}"`);
  return found;
};

/**
 * Fastenings an hour for one person: saving all goes at the slow rate of pulling, saving the sound ones at the usual
 * one; renewing is cutting the head and punching the stub, one after the other.
 */
function pullRate(fastening: string, care: Care): ThreePoint {
  const pulled = rateOf(pulledAt[fastening] ?? '');
  if (care === 'save sound ones') return { low: pulled.low, likely: pulled.likely, high: pulled.high };
  if (care === 'save all') return { low: pulled.low * 0.75, likely: pulled.low, high: pulled.likely };
  const [cut, punched] = [rateOf('nails-cut'), rateOf('stubs-punched')];
  const both = (point: keyof ThreePoint): number => 1 / (1 / cut[point] + 1 / punched[point]);
  return { low: both('low'), likely: both('likely'), high: both('high') };
}
