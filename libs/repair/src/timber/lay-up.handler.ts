import { YardDay } from '@ribband/crew';
import { flitchOf } from '@ribband/hull';
import {
  type ComputeControl,
  type ComputeHandler,
  ComputeJobHandler,
  type ComputeTask,
  Database,
  GiveUp,
  newId,
  RealClock,
  Stopped,
} from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { FlitchEntity, type StockUse, stockUses } from './flitch.entity.js';
import type { LayUpOrder } from './lay-up-order.js';
import { LayUpEntity } from './lay-up.entity.js';
import { runLayUp } from './run-lay-up.js';
import { settingsOf } from './settings.records.js';
import { NewPieces } from './new-pieces.js';

const payload = z.object({});

/** Always the same, so that the same stock and patterns give the same lay-up. */
const seed = 1;

/** Seeks a place on the stock for every piece whose wood is not cut yet, and proposes it. */
@Injectable()
@ComputeJobHandler('lay-up')
export class LayUpHandler implements ComputeHandler<z.infer<typeof payload>> {
  readonly payload = payload;
  readonly tries = 2;
  readonly runTwice = 'It reads the newest stock again and puts its proposal in place of the last one.';

  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(NewPieces) private readonly newPieces: NewPieces,
  ) {}

  async run({ organisationId }: ComputeTask, control: ComputeControl): Promise<void> {
    const order = await this.database.snapshot((manager) => this.order(manager, organisationId));
    const result = await runLayUp(order, control.signal).catch((error: unknown) => {
      throw control.signal.aborted ? new Stopped() : error;
    });
    await control.publish(async (manager) => {
      await manager.delete(LayUpEntity, { organisationId, state: 'proposed' });
      await manager.insert(LayUpEntity, {
        id: newId('layup'),
        organisationId,
        state: 'proposed',
        result,
        madeAt: this.clock.now(),
        madeOn: await this.yardDay.today(organisationId, manager),
        keptBy: null,
      });
    });
  }

  private async order(manager: EntityManager, organisationId: string): Promise<LayUpOrder> {
    const haulOut = await haulOutInForce(manager, organisationId);
    const wood = haulOut && (await this.newPieces.of(manager, haulOut));
    if (!haulOut || !wood?.pieces.length)
      throw new GiveUp('There is nothing to lay up: she has no outline or no survey yet.');
    const settings = await settingsOf(manager, haulOut);
    const flitches = await manager.find(FlitchEntity, { where: { organisationId }, order: { id: 'ASC' } });
    const kept = await manager.findOneBy(LayUpEntity, { organisationId, state: 'kept' });
    const sawn = new Set(flitches.filter((one) => one.usedOn !== null).map((one) => one.id));
    const cut = new Set(
      kept?.result.placed.filter((one) => sawn.has(one.flitch)).map((one) => one.pattern) ?? [],
    );
    const free = flitches.filter((one) => one.usedOn === null && one.reservedFor === null);
    const pieces = wood.pieces.filter((piece) => piece.pattern !== null && !cut.has(piece.key));
    const table = (use: StockUse): LayUpOrder['tables'][number] => ({
      patterns: pieces.flatMap((piece) => (piece.use === use && piece.pattern ? [piece.pattern] : [])),
      stock: free
        .filter((flitch) => flitch.use === use)
        .map((flitch) => flitchOf({ key: flitch.id, name: flitch.mark, ...flitch.taped })),
      runOut: settings.grainRunOut,
      seed,
    });
    return { tables: stockUses.map(table) };
  }
}
