import { newId } from '@ribband/platform';
import { YardDay } from '@ribband/crew';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { Task } from '../tasks/task.entity.js';
import { FlitchEntity } from './flitch.entity.js';
import { pieceDays } from './holds.js';
import { LayUpEntity } from './lay-up.entity.js';
import { MoistureReading } from './moisture-reading.entity.js';
import { settingsOf } from './settings.records.js';
import { StockHold } from './stock-hold.entity.js';
import { StockPromise } from './stock-promise.entity.js';
import { NewPieces } from './new-pieces.js';

/** Turns what is short in the timber book into days before which tasks cannot begin. */
@Injectable()
export class StockHolds {
  constructor(
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(NewPieces) private readonly newPieces: NewPieces,
  ) {}

  /**
   * Settles all holds anew; call it in every write that changes stock, the lay-up or what is made new. Nothing is held
   * before the shipwright has kept a lay-up.
   * @returns whether any hold changed: then the plan has to be made anew
   */
  async settle(manager: EntityManager, organisationId: string): Promise<boolean> {
    const before = await manager.find(StockHold, { where: { organisationId } });
    const after = await this.due(manager, organisationId);
    const words = (holds: Pick<StockHold, 'taskId' | 'fromOn' | 'why'>[]) =>
      holds.map(({ taskId, fromOn, why }) => `${taskId} ${fromOn} ${why}`).sort();
    if (JSON.stringify(words(before)) === JSON.stringify(words(after))) return false;
    await manager.delete(StockHold, { organisationId });
    for (const hold of after) await manager.insert(StockHold, hold);
    return true;
  }

  private async due(manager: EntityManager, organisationId: string): Promise<StockHold[]> {
    const haulOut = await haulOutInForce(manager, organisationId);
    const layUp = await manager.findOneBy(LayUpEntity, { organisationId, state: 'kept' });
    const wood = haulOut && layUp && (await this.newPieces.of(manager, haulOut));
    if (!haulOut || !layUp || !wood) return [];
    const today = await this.yardDay.today(organisationId, manager);
    const days = pieceDays({
      pieces: wood.pieces,
      layUp,
      flitches: await manager.findBy(FlitchEntity, { organisationId }),
      readings: await manager.findBy(MoistureReading, { organisationId }),
      promises: await manager.findBy(StockPromise, { organisationId }),
      settings: await settingsOf(manager, haulOut),
      today,
    });
    const refs = wood.pieces.map((piece) => piece.task);
    const tasks = await manager.findBy(Task, { organisationId, ref: In(refs) });
    return tasks
      .filter((task) => task.droppedAt === null)
      .flatMap((task) => {
        const waits = wood.pieces.flatMap((piece) =>
          piece.task === task.ref ? (days.get(piece.key) ?? []) : [],
        );
        const late = waits.filter(({ on }) => on > today).sort((a, b) => (a.on < b.on ? 1 : -1));
        if (!late[0]) return [];
        return Object.assign(new StockHold(), {
          id: newId('stockhold'),
          organisationId,
          taskId: task.id,
          fromOn: late[0].on,
          why: late.map(({ why }) => why).join('. '),
        });
      });
  }
}
