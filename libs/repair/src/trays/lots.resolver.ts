import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import type { Care } from '@ribband/hull';
import { Database, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, Int, Mutation, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { forgetRead } from '../repair.loaders.js';
import { CareLevels } from './care.service.js';
import { FasteningKinds, LotLeft } from './fastening-kinds.service.js';
import { Lot } from './lot.entity.js';
import { CareEnum, CarePayload, CareSideBySide, FasteningKind } from './lot.types.js';

const ChooseCareResult = refusable('ChooseCareResult', () => CarePayload);

@Resolver(() => Lot)
export class LotsResolver {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(FasteningKinds) private readonly kinds: FasteningKinds,
    @Inject(CareLevels) private readonly levels: CareLevels,
    @Inject(LotLeft) private readonly lotLeft: LotLeft,
  ) {}

  @AllowSignedIn()
  @Query(() => [Lot], { description: 'Fastenings that were bought, oldest first; at most 1000.' })
  lots(@CurrentCaller() { organisationId }: Caller): Promise<Lot[]> {
    return this.database.read.find(Lot, { where: { organisationId }, order: { id: 'ASC' }, take: 1000 });
  }

  @AllowSignedIn()
  @Query(() => [FasteningKind], {
    description: 'Balance and shortfall of each kind of fastening; at most 20.',
  })
  fasteningKinds(@CurrentCaller() caller: Caller): Promise<FasteningKind[]> {
    return this.kinds.all(caller);
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => [CareSideBySide], { description: 'Levels of care side by side, by kind; at most 20.' })
  careLevels(@CurrentCaller() caller: Caller): Promise<CareSideBySide[]> {
    return this.levels.sideBySide(caller);
  }

  @Allow('shipwright')
  @Mutation(() => ChooseCareResult, {
    description: 'Chooses how carefully fastenings are treated, with a reason; work not begun gets its rate.',
  })
  async chooseCare(
    @CurrentCaller() caller: Caller,
    @Args('fastening', { type: () => String, description: 'Which kind, such as plank nails.' })
    fastening: string,
    @Args('care', { type: () => CareEnum, description: 'Which level.' }) care: Care,
    @Args('reason', { type: () => String, description: 'Why.' }) reason: string,
    @Context() context: RequestContext,
  ): Promise<CarePayload> {
    forgetRead(context);
    return Object.assign(new CarePayload(), {
      chosen: await this.levels.choose(caller, fastening, care, reason),
    });
  }

  @ResolveField(() => Int, { description: 'How many of it are in no tray yet.' })
  left(@Parent() lot: Lot, @Context() context: RequestContext): Promise<number> {
    return this.lotLeft.of(lot, context);
  }
}
