import { AllowSignedIn, CurrentCaller, type Caller } from '@ribband/access';
import { DateTime, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Field, Mutation, ObjectType, Query, Resolver } from '@nestjs/graphql';
import { Feeds, type FeedState } from './feeds.service.js';

@ObjectType({ description: 'The secret address of the caller’s calendar, as far as it is known.' })
export class CalendarFeed implements FeedState {
  @Field(() => Boolean, { description: 'Whether there is one.' })
  isThere!: boolean;

  @Field(() => DateTime, { nullable: true, description: 'When it was made.' })
  madeAt!: number | null;

  @Field(() => DateTime, { nullable: true, description: 'When a program last looked, to the hour.' })
  readAt!: number | null;
}

@ObjectType({ description: 'A new address, shown this once.' })
export class MakeCalendarAddressPayload {
  @Field(() => String, { description: 'The address, or its path where the server does not know its own.' })
  address!: string;
}

@ObjectType({ description: 'The calendar’s address after it was revoked.' })
export class RevokeCalendarAddressPayload {
  @Field(() => CalendarFeed, { description: 'There is none any more.' })
  feed!: CalendarFeed;
}

const MakeCalendarAddressResult = refusable('MakeCalendarAddressResult', () => MakeCalendarAddressPayload);
const RevokeCalendarAddressResult = refusable(
  'RevokeCalendarAddressResult',
  () => RevokeCalendarAddressPayload,
);

@Resolver()
export class FeedsResolver {
  constructor(@Inject(Feeds) private readonly feeds: Feeds) {}

  @AllowSignedIn()
  @Query(() => CalendarFeed, { description: 'Whether the caller’s calendar has an address.' })
  calendarFeed(@CurrentCaller() caller: Caller): Promise<FeedState> {
    return this.feeds.state(caller);
  }

  @AllowSignedIn()
  @Mutation(() => MakeCalendarAddressResult, {
    description: 'Makes the caller’s calendar a new secret address; the old one answers no more.',
  })
  async makeCalendarAddress(@CurrentCaller() caller: Caller): Promise<MakeCalendarAddressPayload> {
    return Object.assign(new MakeCalendarAddressPayload(), { address: await this.feeds.make(caller) });
  }

  @AllowSignedIn()
  @Mutation(() => RevokeCalendarAddressResult, {
    description: 'Revokes the address of the caller’s calendar.',
  })
  async revokeCalendarAddress(@CurrentCaller() caller: Caller): Promise<RevokeCalendarAddressPayload> {
    await this.feeds.revoke(caller);
    const feed = await this.feeds.state(caller);
    return Object.assign(new RevokeCalendarAddressPayload(), { feed });
  }
}
