import { AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Mutation, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { loader } from '../graphql/loaders.js';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import { VolunteerPayload } from '../volunteers/volunteer.payload.js';
import { Phones } from './phones.service.js';

const SetPhoneResult = refusable('SetPhoneResult', () => VolunteerPayload);

@Resolver(() => Volunteer)
export class PhonesResolver {
  constructor(@Inject(Phones) private readonly phones: Phones) {}

  @ResolveField(() => String, {
    nullable: true,
    description: 'Their telephone number; null for everybody but themselves and the coordinator.',
  })
  async phone(@Parent() one: Volunteer, @Context() context: RequestContext): Promise<string | null> {
    const { caller } = context;
    if (!caller) return null;
    return loader(context, 'crew.phone', async (ids: readonly string[]) => {
      const seen = await this.phones.seenBy(caller, ids);
      return ids.map((id) => seen.get(id) ?? null);
    }).load(one.id);
  }

  @AllowSignedIn()
  @Mutation(() => SetPhoneResult, {
    description: 'Writes down somebody’s telephone number: the coordinator anybody’s, everybody their own.',
  })
  async setPhone(
    @CurrentCaller() caller: Caller,
    @Args('volunteerId', { type: () => ID, description: 'Who.' }) volunteerId: string,
    @Args('phone', { type: () => String, nullable: true, description: 'The number; none takes it away.' })
    phone: string | null | undefined,
  ): Promise<VolunteerPayload> {
    return Object.assign(new VolunteerPayload(), {
      volunteer: await this.phones.set(caller, volunteerId, phone ?? null),
    });
  }
}
