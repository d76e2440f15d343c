import { Allow, type Caller, CurrentCaller } from '@ribband/access';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Field, ID, Mutation, ObjectType, Query, Resolver } from '@nestjs/graphql';
import { Troubles } from './troubles.service.js';

@ObjectType({ description: 'Something that goes wrong at the demo yard.' })
export class DemoTrouble {
  @Field(() => ID, { description: 'Which.' })
  key!: string;

  @Field(() => String, { description: 'What goes wrong.' })
  title!: string;

  @Field(() => String, { description: 'What it does, and whether the date moves.' })
  story!: string;

  @Field(() => Boolean, { description: 'Whether it was played before.' })
  wasPlayed!: boolean;
}

@ObjectType({ description: 'The trouble was entered; a plan follows.' })
export class PlayTroublePayload {
  @Field(() => ID, { description: 'Which.' })
  key!: string;
}

const PlayTroubleResult = refusable('PlayTroubleResult', () => PlayTroublePayload);

@Resolver(() => DemoTrouble)
export class TroublesResolver {
  constructor(@Inject(Troubles) private readonly troubles: Troubles) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => [DemoTrouble], {
    description: 'Troubles to play at the demo yard; at most 20, none at a real one.',
  })
  demoTroubles(@CurrentCaller() caller: Caller): Promise<DemoTrouble[]> {
    return this.troubles.list(caller);
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => PlayTroubleResult, {
    description: 'Plays a trouble at the demo yard, as people would enter it.',
  })
  async playTrouble(
    @CurrentCaller() caller: Caller,
    @Args('key', { type: () => ID, description: 'Which.' }) key: string,
  ): Promise<PlayTroublePayload> {
    await this.troubles.play(caller, key);
    return Object.assign(new PlayTroublePayload(), { key });
  }
}
