import { Allow, AllowSignedIn, type Caller, CurrentCaller } from '@ribband/access';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Field, InputType, Int, Mutation, ObjectType, Query, Resolver } from '@nestjs/graphql';
import { RosterSettingsEntity } from './roster-settings.entity.js';
import { RosterSettings } from './roster-settings.service.js';

@InputType({ description: 'How the yard keeps its roster.' })
class RosterSettingsInput {
  @Field(() => Int, { description: 'The version that was read.' })
  version!: number;

  @Field(() => Int, { description: 'Hours before a place starts from which leaving it is late; 0 to 336.' })
  lateHours!: number;

  @Field(() => Int, { description: 'Hours after which a kept morning sheet is too old; 1 to 24.' })
  staleHours!: number;
}

@ObjectType({ description: 'The settings as they are now.' })
class RosterSettingsPayload {
  @Field(() => RosterSettingsEntity, { description: 'The settings.' })
  settings!: RosterSettingsEntity;
}

const SetRosterSettingsResult = refusable('SetRosterSettingsResult', () => RosterSettingsPayload);

@Resolver()
export class RosterSettingsResolver {
  constructor(@Inject(RosterSettings) private readonly settings: RosterSettings) {}

  @AllowSignedIn()
  @Query(() => RosterSettingsEntity, { description: 'How the yard keeps its roster.' })
  rosterSettings(@CurrentCaller() caller: Caller): Promise<RosterSettingsEntity> {
    return this.settings.of(caller.organisationId);
  }

  @Allow('director', 'coordinator')
  @Mutation(() => SetRosterSettingsResult, { description: 'Sets how the yard keeps its roster.' })
  async setRosterSettings(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'All of it.' }) input: RosterSettingsInput,
  ): Promise<RosterSettingsPayload> {
    return Object.assign(new RosterSettingsPayload(), { settings: await this.settings.set(caller, input) });
  }
}
