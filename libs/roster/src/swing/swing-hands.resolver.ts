import { AllowSignedIn, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { NamedHand, volunteerLoader } from '@ribband/crew';
import { Database, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import {
  Args,
  Context,
  Field,
  ID,
  Mutation,
  ObjectType,
  Parent,
  Query,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { turnoutLoader } from '../roster.loaders.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { SwingHandEntity } from './swing-hand.entity.js';
import { SwingHands } from './swing-hands.service.js';

@ObjectType({ description: 'Who stands by no more.' })
class LeaveSwingPayload {
  @Field(() => SwingHandEntity, { description: 'As it stands now.' })
  swingHand!: SwingHandEntity;
}

const LeaveSwingResult = refusable('LeaveSwingResult', () => LeaveSwingPayload);

@Resolver(() => SwingHandEntity)
export class SwingHandsResolver {
  constructor(
    @Inject(SwingHands) private readonly swing: SwingHands,
    @Inject(Database) private readonly database: Database,
  ) {}

  @AllowSignedIn()
  @Query(() => [SwingHandEntity], {
    description: 'The turnouts at which you stand by, soonest first; at most 100.',
  })
  mySwings(@CurrentCaller() caller: Caller): Promise<SwingHandEntity[]> {
    return this.swing.mine(caller);
  }

  @AllowSignedIn()
  @Mutation(() => LeaveSwingResult, {
    description: 'You can’t stand by, or as coordinator somebody else. No reason is asked for.',
  })
  async leaveSwing(
    @CurrentCaller() caller: Caller,
    @Args('swingHandId', { type: () => ID, description: 'Which.' }) swingHandId: string,
    @Args('key', {
      type: () => ID,
      nullable: true,
      description: 'Your own for this press: asked again with the same key, the answer is the same.',
    })
    key: string | null = null,
  ): Promise<LeaveSwingPayload> {
    return Object.assign(new LeaveSwingPayload(), {
      swingHand: await this.swing.leave(caller, swingHandId, key),
    });
  }

  @ResolveField(() => TurnoutEntity, { description: 'The turnout.' })
  turnout(@Parent() row: SwingHandEntity, @Context() context: RequestContext): Promise<TurnoutEntity> {
    return turnoutLoader(context, this.database.read).load(row.turnoutId);
  }

  @ResolveField(() => NamedHand, { description: 'Who.' })
  async hand(@Parent() row: SwingHandEntity, @Context() context: RequestContext): Promise<NamedHand> {
    const volunteer = await volunteerLoader(context, this.database.read).load(row.volunteerId);
    return { volunteerId: volunteer.id, name: volunteer.name };
  }
}
