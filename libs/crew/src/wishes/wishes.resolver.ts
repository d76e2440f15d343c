import { AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { refusable } from '@ribband/platform';
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
  registerEnumType,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import { VolunteerPayload } from '../volunteers/volunteer.payload.js';
import { type RatherNot, ratherNotNames, ratherNots } from './rather-not.js';
import { WishBook, type Wishes } from './wishes.service.js';

const RatherNotEnum = Object.fromEntries(ratherNotNames.map((name) => [name.toUpperCase(), name]));

registerEnumType(RatherNotEnum, {
  name: 'RatherNot',
  description: 'What somebody would rather not do. No reason is asked.',
  valuesMap: Object.fromEntries(
    ratherNotNames.map((name) => [name.toUpperCase(), { description: ratherNots[name].words }]),
  ),
});

@ObjectType('Wishes', { description: 'What somebody asks for themselves: between them and the coordinator.' })
class WishesType implements Wishes {
  @Field(() => Int, { nullable: true, description: 'Most turnouts in a calendar month; null for no cap.' })
  turnoutsAMonth!: number | null;

  @Field(() => [RatherNotEnum], { description: 'What they would rather not do; at most 9.' })
  ratherNots!: RatherNot[];
}

const SetWishesResult = refusable('SetWishesResult', () => VolunteerPayload);

@Resolver(() => Volunteer)
export class WishesResolver {
  constructor(@Inject(WishBook) private readonly book: WishBook) {}

  @ResolveField(() => WishesType, {
    nullable: true,
    description: 'What they ask for; null for everybody but themselves and the coordinator.',
  })
  async wishes(@Parent() one: Volunteer, @Context() context: RequestContext): Promise<Wishes | null> {
    return context.caller ? this.book.read(context.caller, one.id) : null;
  }

  @AllowSignedIn()
  @Mutation(() => SetWishesResult, {
    description: 'Says anew what somebody asks for: the coordinator for anybody, everybody for themselves.',
  })
  async setWishes(
    @CurrentCaller() caller: Caller,
    @Args('volunteerId', { type: () => ID, description: 'Who.' }) volunteerId: string,
    @Args('version', { type: () => Int, description: 'Their version that was read.' }) version: number,
    @Args('turnoutsAMonth', { type: () => Int, nullable: true, description: 'A cap, or none.' })
    turnoutsAMonth: number | null | undefined,
    @Args('ratherNots', { type: () => [RatherNotEnum], description: 'The whole new list.' })
    given: RatherNot[],
  ): Promise<VolunteerPayload> {
    const wishes = { turnoutsAMonth: turnoutsAMonth ?? null, ratherNots: given };
    const volunteer = await this.book.set(caller, volunteerId, version, wishes);
    return Object.assign(new VolunteerPayload(), { volunteer });
  }
}
