import type { RequestContext } from '@ribband/access';
import { Phones } from '@ribband/crew';
import { Inject } from '@nestjs/common';
import { Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { HandToRing } from './week.types.js';

@Resolver(() => HandToRing)
export class RingResolver {
  constructor(@Inject(Phones) private readonly phones: Phones) {}

  @ResolveField(() => String, {
    nullable: true,
    description: 'Their telephone number; null for everybody but the coordinator, and where none is known.',
  })
  async phone(@Parent() { hand }: HandToRing, @Context() { caller }: RequestContext): Promise<string | null> {
    if (!caller) return null;
    return (await this.phones.seenBy(caller, [hand.volunteerId])).get(hand.volunteerId) ?? null;
  }
}
