import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { Connection, type ConnectionOf, Database, LocalDate, PageArgs, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import {
  Args,
  Context,
  Field,
  ID,
  Int,
  Mutation,
  ObjectType,
  Parent,
  Query,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { elementLoader, forgetRead } from '../repair.loaders.js';
import { HullElement } from './hull-element.entity.js';
import { LimitOverride, OpeningLimit } from './opening-limit.entity.js';
import { Openings } from './openings.service.js';

const HullElementConnection = Connection('HullElement', () => HullElement);

@ObjectType({ description: 'The limit as the change left it.' })
export class OpeningLimitPayload {
  @Field(() => OpeningLimit, { description: 'The limit.' })
  openingLimit!: OpeningLimit;
}

const OverrideOpeningLimitResult = refusable('OverrideOpeningLimitResult', () => OpeningLimitPayload);
const RestoreOpeningLimitResult = refusable('RestoreOpeningLimitResult', () => OpeningLimitPayload);

const payload = (openingLimit: OpeningLimit): OpeningLimitPayload =>
  Object.assign(new OpeningLimitPayload(), { openingLimit });

@Resolver(() => OpeningLimit)
export class OpeningsResolver {
  constructor(
    @Inject(Openings) private readonly openings: Openings,
    @Inject(Database) private readonly database: Database,
  ) {}

  @AllowSignedIn()
  @Query(() => HullElementConnection, { description: 'Pieces of the hull that work opens and closes.' })
  hullElements(@CurrentCaller() caller: Caller, @Args() page: PageArgs): Promise<ConnectionOf<HullElement>> {
    return this.openings.elements(caller, page);
  }

  @AllowSignedIn()
  @Query(() => [OpeningLimit], { description: 'How far the hull may be open at once; at most 500.' })
  openingLimits(@CurrentCaller() caller: Caller): Promise<OpeningLimit[]> {
    return this.openings.limits(caller);
  }

  @Allow('shipwright')
  @Mutation(() => OverrideOpeningLimitResult, {
    description: 'Sets a structural limit aside, in your name and with your reason.',
  })
  async overrideOpeningLimit(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which limit.' }) id: string,
    @Args('version', { type: () => Int, description: 'Its version that was read.' }) version: number,
    @Args('reason', { type: () => String, description: 'What holds the hull instead.' }) reason: string,
    @Args('elementIds', {
      type: () => [ID],
      nullable: true,
      description: 'The elements that may be open and are not counted; absent: all. At most 500.',
    })
    elementIds: string[] | null | undefined,
    @Args('untilOn', {
      type: () => LocalDate,
      nullable: true,
      description: 'The last day on which it counts; absent: until it is taken back.',
    })
    untilOn: string | null | undefined,
    @Context() context: RequestContext,
  ): Promise<OpeningLimitPayload> {
    forgetRead(context);
    const scope = { elementIds: elementIds ?? null, untilOn: untilOn ?? null };
    return payload(await this.openings.setAside(caller, id, version, reason, scope));
  }

  @Allow('shipwright')
  @Mutation(() => RestoreOpeningLimitResult, { description: 'Lets a limit that was set aside hold again.' })
  async restoreOpeningLimit(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which limit.' }) id: string,
    @Args('version', { type: () => Int, description: 'Its version that was read.' }) version: number,
    @Context() context: RequestContext,
  ): Promise<OpeningLimitPayload> {
    forgetRead(context);
    return payload(await this.openings.setAside(caller, id, version, null));
  }

  @ResolveField(() => [HullElement], { description: 'The elements that it counts; at most 500.' })
  async elements(@Parent() limit: OpeningLimit, @Context() context: RequestContext): Promise<HullElement[]> {
    const ids = limit.elementIds.slice(0, 500);
    return Promise.all(ids.map((id) => elementLoader(context, this.database.read).load(id)));
  }

  @ResolveField(() => [HullElement], {
    description: 'The elements that its override lets be open and does not count; at most 500.',
  })
  async notCounted(
    @Parent() limit: OpeningLimit,
    @Context() context: RequestContext,
  ): Promise<HullElement[]> {
    if (limit.overrideBy === null) return [];
    const ids = (limit.overrideElementIds ?? limit.elementIds).slice(0, 500);
    return Promise.all(ids.map((id) => elementLoader(context, this.database.read).load(id)));
  }

  @ResolveField(() => LimitOverride, {
    nullable: true,
    description: 'Who set it aside and why; null while it holds.',
  })
  override(@Parent() limit: OpeningLimit): LimitOverride | null {
    if (limit.overrideBy === null) return null;
    return { by: limit.overrideBy, reason: limit.overrideReason ?? '', untilOn: limit.overrideUntilOn };
  }
}
