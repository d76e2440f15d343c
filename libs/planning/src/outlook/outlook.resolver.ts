import { Allow, type Caller, CurrentCaller } from '@ribband/access';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Field, Float, ID, Mutation, ObjectType, Query, Resolver } from '@nestjs/graphql';
import { Paces } from '../beliefs/paces.service.js';
import { OutlookModel } from './outlook.types.js';
import { Outlooks } from './outlooks.service.js';

@ObjectType({ description: 'A pace was set; the odds are reckoned again.' })
export class PinPacePayload {
  @Field(() => ID, { description: 'The kind of work.' })
  kind!: string;
}

const PinPaceResult = refusable('PinPaceResult', () => PinPacePayload);

@Resolver(() => OutlookModel)
export class OutlookResolver {
  constructor(
    @Inject(Outlooks) private readonly outlooks: Outlooks,
    @Inject(Paces) private readonly paces: Paces,
  ) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => OutlookModel, {
    nullable: true,
    description: 'Whether she will float on the day; null before the first forecast.',
  })
  outlook(@CurrentCaller() caller: Caller): Promise<OutlookModel | null> {
    return this.outlooks.now(caller);
  }

  @Allow('shipwright')
  @Mutation(() => PinPaceResult, {
    description: 'Sets the pace of a kind of work by hand, or lets it be learned again.',
  })
  async pinPace(
    @CurrentCaller() caller: Caller,
    @Args('kind', { type: () => ID, description: 'The kind of work.' }) kind: string,
    @Args('pace', {
      type: () => Float,
      nullable: true,
      description: 'Pieces a person-hour; null lets it be learned.',
    })
    pace: number | null,
    @Args('reason', { type: () => String, description: 'Why.' }) reason: string,
  ): Promise<PinPacePayload> {
    await this.paces.pin(caller, kind, pace, reason);
    return Object.assign(new PinPacePayload(), { kind });
  }
}
