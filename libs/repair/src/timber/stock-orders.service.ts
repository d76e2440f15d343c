import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { Task } from '../tasks/task.entity.js';
import { LayUpEntity } from './lay-up.entity.js';
import { NewPieces } from './new-pieces.js';
import { settingsOf } from './settings.records.js';
import { StockPromise } from './stock-promise.entity.js';

/** A piece that is made new and for which no stock is known, nor promised. */
export interface StockWanted {
  name: string;
  /** The task that first cuts its stock. */
  taskId: string;
}

export interface StockOrders {
  /** Days that finding stock usually takes at this yard. */
  leadDays: number;
  /** Null while no lay-up is kept: then nobody knows what is wanting. */
  wanted: StockWanted[] | null;
  /** Every piece that is made new, for the day by which the lay-up must be kept. */
  pieces: StockWanted[];
}

/** What timber has still to be found, for the days by which it must be ordered. */
@Injectable()
export class StockToOrder {
  constructor(@Inject(NewPieces) private readonly newPieces: NewPieces) {}

  /** @returns null before a haul-out */
  async of(manager: EntityManager, organisationId: string): Promise<StockOrders | null> {
    const haulOut = await haulOutInForce(manager, organisationId);
    if (!haulOut) return null;
    const { leadDays } = await settingsOf(manager, haulOut);
    const { pieces } = await this.newPieces.of(manager, haulOut);
    const tasks = await manager.findBy(Task, { organisationId, ref: In(pieces.map(({ task }) => task)) });
    const ids = new Map(tasks.flatMap(({ ref, id, droppedAt }) => (droppedAt === null ? [[ref, id]] : [])));
    const named = pieces.flatMap(({ key, name, task }) => {
      const taskId = ids.get(task);
      return taskId === undefined ? [] : [{ key, name, taskId }];
    });
    const kept = await manager.findOneBy(LayUpEntity, { organisationId, state: 'kept' });
    const promised = await manager.findBy(StockPromise, { organisationId });
    const known = new Set([
      ...promised.map(({ piece }) => piece),
      ...(kept?.result.placed ?? []).map(({ pattern }) => pattern),
    ]);
    return { leadDays, wanted: kept && named.filter(({ key }) => !known.has(key)), pieces: named };
  }
}
