import { AllowSignedIn, CurrentCaller, type Caller } from '@ribband/access';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, ID, Int, Mutation, Resolver } from '@nestjs/graphql';
import { VolunteerPayload } from '../volunteers/volunteer.payload.js';
import {
  AvailabilityExceptionInput,
  AvailabilityRuleInput,
  exceptionOf,
  ruleOf,
} from './availability.graphql.js';
import { Availability } from './availability.service.js';

const SetAvailabilityResult = refusable('SetAvailabilityResult', () => VolunteerPayload);

@Resolver()
export class AvailabilityResolver {
  constructor(@Inject(Availability) private readonly availability: Availability) {}

  @AllowSignedIn()
  @Mutation(() => SetAvailabilityResult, {
    description: 'Says anew when somebody can come: the coordinator for anybody, everybody for themselves.',
  })
  async setAvailability(
    @CurrentCaller() caller: Caller,
    @Args('volunteerId', { type: () => ID, description: 'Who.' }) volunteerId: string,
    @Args('version', { type: () => Int, description: 'Their version that was read.' }) version: number,
    @Args('rules', {
      type: () => [AvailabilityRuleInput],
      description: 'The whole new set of rules; at most 50.',
    })
    rules: AvailabilityRuleInput[],
    @Args('exceptions', {
      type: () => [AvailabilityExceptionInput],
      description: 'The whole new set of exceptions, the later the stronger; at most 500.',
    })
    exceptions: AvailabilityExceptionInput[],
  ): Promise<VolunteerPayload> {
    const volunteer = await this.availability.set(
      caller,
      volunteerId,
      version,
      rules.map(ruleOf),
      exceptions.map(exceptionOf),
    );
    return Object.assign(new VolunteerPayload(), { volunteer });
  }
}
