import { Allow, type Caller, CurrentCaller, Organisation } from '@ribband/access';
import { Database, DateTime, JSONDocument, refusable } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { Inject } from '@nestjs/common';
import { Args, Mutation, Query, Resolver } from '@nestjs/graphql';
import { MoveClock } from '../demo/move-clock.service.js';
import { YardBook } from './yard-book.service.js';
import { ImportYardPayload, MoveYardClockPayload, YardFaults } from './yard.types.js';

const ImportYardResult = refusable('ImportYardResult', () => [ImportYardPayload, YardFaults] as const);
const MoveYardClockResult = refusable('MoveYardClockResult', () => MoveYardClockPayload);

@Resolver()
export class YardResolver {
  constructor(
    @Inject(YardBook) private readonly book: YardBook,
    @Inject(MoveClock) private readonly clock: MoveClock,
    @Inject(Database) private readonly database: Database,
  ) {}

  @Allow('director', 'coordinator')
  @Query(() => JSONDocument, {
    description: 'The whole yard as a document of the format ribband-yard/1, which can be read in again.',
  })
  yardDocument(@CurrentCaller() caller: Caller): Promise<unknown> {
    return this.book.export(caller);
  }

  @Allow('director', 'coordinator')
  @Mutation(() => ImportYardResult, {
    description: 'Reads a whole yard in: all of it, or nothing and every fault by its path.',
  })
  async importYard(
    @CurrentCaller() caller: Caller,
    @Args('document', { type: () => JSONDocument, description: 'A document of the format ribband-yard/1.' })
    document: unknown,
    @Args('replace', {
      type: () => Boolean,
      nullable: true,
      description: 'Whether the records that are there now may go.',
    })
    replace: boolean | null = false,
  ): Promise<ImportYardPayload | YardFaults> {
    const read = await this.book.import(caller, document, replace ?? false);
    if (Array.isArray(read)) return Object.assign(new YardFaults(), { faults: read.slice(0, 1000) });
    const { organisationId } = caller;
    const organisation = await this.database.read.findOneByOrFail(Organisation, { id: organisationId });
    const tasks = await this.database.read.countBy(Task, { organisationId });
    return Object.assign(new ImportYardPayload(), { organisation, tasks });
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => MoveYardClockResult, {
    description: 'Moves the demo yard’s clock; refused at any other yard.',
  })
  async moveYardClock(
    @CurrentCaller() caller: Caller,
    @Args('to', { type: () => DateTime, description: 'What time it shall be.' }) to: number,
  ): Promise<MoveYardClockPayload> {
    return Object.assign(new MoveYardClockPayload(), { organisation: await this.clock.to(caller, to) });
  }
}
