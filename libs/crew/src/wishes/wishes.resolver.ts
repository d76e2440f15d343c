import { AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { Database, refusable } from '@ribband/platform';
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
import { Skill } from '../skills/skill.entity.js';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import { VolunteerPayload } from '../volunteers/volunteer.payload.js';
import { skillLoader } from '../crew.loaders.js';
import { type RatherNot, ratherNotNames, ratherNots } from './rather-not.js';
import { WishBook } from './wishes.service.js';

const RatherNotEnum = Object.fromEntries(ratherNotNames.map((name) => [name.toUpperCase(), name]));

registerEnumType(RatherNotEnum, {
  name: 'RatherNot',
  description: 'What somebody would rather not do. No reason is asked.',
  valuesMap: Object.fromEntries(
    ratherNotNames.map((name) => [name.toUpperCase(), { description: ratherNots[name].words }]),
  ),
});

@ObjectType('Wishes', { description: 'What somebody asks for themselves: between them and the coordinator.' })
class WishesType {
  @Field(() => Int, { nullable: true, description: 'Most turnouts in a calendar month; null for no cap.' })
  turnoutsAMonth!: number | null;

  @Field(() => [RatherNotEnum], { description: 'What they would rather not do; at most 9.' })
  ratherNots!: RatherNot[];

  @Field(() => [Skill], { description: 'What they would like to learn, in order of name; at most 100.' })
  wouldLearn!: Skill[];
}

const SetWishesResult = refusable('SetWishesResult', () => VolunteerPayload);

@Resolver(() => Volunteer)
export class WishesResolver {
  constructor(
    @Inject(WishBook) private readonly book: WishBook,
    @Inject(Database) private readonly database: Database,
  ) {}

  @ResolveField(() => WishesType, {
    nullable: true,
    description: 'What they ask for; null for everybody but themselves and the coordinator.',
  })
  async wishes(@Parent() one: Volunteer, @Context() context: RequestContext): Promise<WishesType | null> {
    const wishes = context.caller ? await this.book.read(context.caller, one.id) : null;
    if (!wishes) return null;
    const skills = await skillLoader(context, this.database.read).loadMany(wishes.wouldLearn);
    const wouldLearn = skills
      .filter((skill) => skill instanceof Skill)
      .sort((a, b) => a.name.localeCompare(b.name));
    return { ...wishes, wouldLearn };
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
    @Args('wouldLearn', {
      type: () => [ID],
      nullable: true,
      description: 'Skills that they would like to learn, the whole new list; as it is when left out.',
    })
    wouldLearn: string[] | null = null,
  ): Promise<VolunteerPayload> {
    const wishes = {
      turnoutsAMonth: turnoutsAMonth ?? null,
      ratherNots: given,
      ...(wouldLearn === null ? {} : { wouldLearn }),
    };
    const volunteer = await this.book.set(caller, volunteerId, version, wishes);
    return Object.assign(new VolunteerPayload(), { volunteer });
  }
}
