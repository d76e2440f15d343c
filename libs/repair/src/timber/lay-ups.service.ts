import { Audit, permit, type Caller } from '@ribband/access';
import { YardDay } from '@ribband/crew';
import { type ComputeJob, Database, newId, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { refuseOddPromise } from './deliveries.js';
import { LayUpEntity } from './lay-up.entity.js';
import { saidDay, saidOrNone } from './said.js';
import { StockHolds } from './stock-holds.service.js';
import { StockPromise } from './stock-promise.entity.js';
import { NewPieces, type Wood } from './new-pieces.js';

/** Which piece from which flitch: asked for, looked at, kept. And when stock that is wanting will come. */
@Injectable()
export class LayUps {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(StockHolds) private readonly holds: StockHolds,
    @Inject(NewPieces) private readonly newPieces: NewPieces,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  /** Asks for a proposal on the stock as it is now. */
  async ask(caller: Caller): Promise<ComputeJob> {
    permit(caller, 'shipwright');
    return this.database.write(async (manager) => {
      await this.wood(manager, caller.organisationId);
      return this.revisions.request(
        manager,
        'lay-up',
        caller.organisationId,
        `${caller.name} asked for a lay-up`,
      );
    });
  }

  /** The shipwright keeps the proposal: from now on the tasks wait for the wood that it names. */
  async keep(caller: Caller, id: string): Promise<LayUpEntity> {
    permit(caller, 'shipwright');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const proposed =
        (await manager.findOneBy(LayUpEntity, { organisationId, id, state: 'proposed' })) ??
        refuse('NOT_FOUND', 'There is no such proposal any more.', {
          field: 'id',
          remedy: 'Ask for a new one and look at it.',
        });
      await keepCut(manager, organisationId, proposed);
      await manager.delete(LayUpEntity, { organisationId, state: 'kept' });
      const { result } = proposed;
      const changes = { state: 'kept' as const, keptBy: caller.name, result };
      await manager.update(LayUpEntity, { id }, changes);
      await this.settled(manager, caller, 'keepLayUp', id, { placed: result.placed.length });
      return Object.assign(proposed, changes);
    });
  }

  /** When stock for a piece without any is expected. */
  async promise(
    caller: Caller,
    piece: string,
    expectedOn: string,
    note: string | null,
  ): Promise<StockPromise> {
    permit(caller, 'shipwright', 'coordinator');
    const { organisationId } = caller;
    const day = saidDay('expectedOn', expectedOn);
    return this.database.write(async (manager) => {
      const wood = await this.wood(manager, organisationId);
      if (!wood.pieces.some((one) => one.key === piece))
        refuse('NOT_FOUND', `No piece "${piece}" is made new.`, {
          field: 'piece',
          remedy: 'One of the pieces on the wanted list.',
        });
      const known = await manager.findOneBy(StockPromise, { organisationId, piece });
      const today = await this.yardDay.today(organisationId, manager);
      refuseOddPromise(day, known?.expectedOn ?? null, today);
      const kept: StockPromise = {
        id: known?.id ?? newId('stockpromise'),
        organisationId,
        piece,
        expectedOn: day,
        promisedOn: known?.promisedOn ?? known?.expectedOn ?? day,
        note: saidOrNone('note', note),
        enteredBy: caller.name,
      };
      await manager.save(StockPromise, kept);
      await this.settled(manager, caller, 'promiseStock', kept.id, { piece, expectedOn: day });
      return kept;
    });
  }

  private async wood(manager: EntityManager, organisationId: string): Promise<Wood> {
    const haulOut = await haulOutInForce(manager, organisationId);
    const wood = haulOut && (await this.newPieces.of(manager, haulOut));
    if (wood && wood.pieces.length > 0) return wood;
    return refuse('TASK_NOT_READY', 'No piece is to be made new.', {
      remedy: 'Enter the outline and the survey first: the pieces to renew follow from them.',
    });
  }

  private async settled(
    manager: EntityManager,
    caller: Caller,
    operation: string,
    id: string,
    facts: Record<string, string | number>,
  ): Promise<void> {
    if (await this.holds.settle(manager, caller.organisationId))
      await this.revisions.requestPlan(manager, caller.organisationId, operation);
    await this.audit.note(manager, caller, operation, id, facts);
  }
}

/** What is sawn already stays where it was laid: a proposal is made for the rest only. */
async function keepCut(manager: EntityManager, organisationId: string, proposed: LayUpEntity): Promise<void> {
  const old = await manager.findOneBy(LayUpEntity, { organisationId, state: 'kept' });
  if (!old) return;
  const named = new Set([
    ...proposed.result.placed.map((one) => one.pattern),
    ...proposed.result.wanting.map((one) => one.pattern),
  ]);
  const cut = old.result.placed.filter((one) => !named.has(one.pattern));
  proposed.result = { ...proposed.result, placed: [...cut, ...proposed.result.placed] };
}
