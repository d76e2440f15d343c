import { Inject } from '@nestjs/common';
import { Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { DateTime, YardClock } from '@ribband/platform';
import type { Caller } from '../caller.js';
import { AllowSignedIn } from '../leave/allow.js';
import { CurrentCaller } from '../leave/current-caller.js';
import { Organisation } from './organisation.entity.js';
import { Organisations } from './organisations.js';

@Resolver(() => Organisation)
export class OrganisationsResolver {
  constructor(
    @Inject(Organisations) private readonly organisations: Organisations,
    @Inject(YardClock) private readonly clock: YardClock,
  ) {}

  @AllowSignedIn()
  @Query(() => Organisation, { description: 'The yard at which the caller is signed in.' })
  organisation(@CurrentCaller() caller: Caller): Promise<Organisation> {
    return this.organisations.own(caller);
  }

  @ResolveField(() => DateTime, {
    description:
      'What time it is at the yard, for everything about planning. The clock of the demo yard stands.',
  })
  yardNow(@Parent() organisation: Organisation): Promise<number> {
    return this.clock.now(organisation.id);
  }
}
