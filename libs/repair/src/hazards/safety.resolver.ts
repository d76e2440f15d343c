import { AllowAnyone } from '@ribband/access';
import { Query, Resolver } from '@nestjs/graphql';
import { safetyNotice } from './hazard-catalogue.js';

@Resolver()
export class SafetyResolver {
  @AllowAnyone()
  @Query(() => String, { description: 'The standing sentence on who decides; it stands by every caution.' })
  safetyNotice(): string {
    return safetyNotice;
  }
}
