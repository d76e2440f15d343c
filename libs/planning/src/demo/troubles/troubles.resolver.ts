import { Allow, type Caller, CurrentCaller, Organisation } from '@ribband/access';
import { LocalDate, refusable } from '@ribband/platform';
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

  @Field(() => [String], {
    description: 'What the yard answered when it was played: cautions, stops, work that waits; at most 50.',
  })
  told!: string[];

  @Field(() => LocalDate, {
    nullable: true,
    description: 'The first day on which it can happen by the plan; null where that is now.',
  })
  waitsUntil!: string | null;
}

@ObjectType({ description: 'The trouble was entered; a plan follows.' })
export class PlayTroublePayload {
  @Field(() => ID, { description: 'Which.' })
  key!: string;

  @Field(() => [String], { description: 'What the yard answered; at most 50 sentences.' })
  told!: string[];
}

@ObjectType({ description: 'The demo yard’s days have gone by as planned.' })
export class PlayDemoOnPayload {
  @Field(() => Organisation, { description: 'The organisation as it is now.' })
  organisation!: Organisation;
}

const PlayTroubleResult = refusable('PlayTroubleResult', () => PlayTroublePayload);
const PlayDemoOnResult = refusable('PlayDemoOnResult', () => PlayDemoOnPayload);

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
    description: 'Plays a trouble at the demo yard, as people would enter it; each once.',
  })
  async playTrouble(
    @CurrentCaller() caller: Caller,
    @Args('key', { type: () => ID, description: 'Which.' }) key: string,
  ): Promise<PlayTroublePayload> {
    const told = await this.troubles.play(caller, key);
    return Object.assign(new PlayTroublePayload(), { key, told: told.slice(0, 50) });
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => PlayDemoOnResult, {
    description:
      'Lets the demo yard’s days go by until a trouble can happen: all work that is planned until then is entered as done.',
  })
  async playDemoOn(
    @CurrentCaller() caller: Caller,
    @Args('key', { type: () => ID, description: 'The trouble that waits for a later day.' }) key: string,
  ): Promise<PlayDemoOnPayload> {
    return Object.assign(new PlayDemoOnPayload(), {
      organisation: await this.troubles.letDaysGoBy(caller, key),
    });
  }
}
