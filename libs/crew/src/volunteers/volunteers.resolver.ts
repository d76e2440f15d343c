import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { Connection, type ConnectionOf, Database, PageArgs, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Int, Mutation, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { AvailabilityType } from '../availability/availability.graphql.js';
import { Card } from '../cards/card.type.js';
import { handLoader, levelsLoader } from '../crew.loaders.js';
import { ageOn } from '../gates/age.js';
import { SkillLevel } from '../skills/skill-level.type.js';
import { YardDay } from '../yard/yard-day.js';
import { VolunteerChanges, VolunteerInput } from './volunteer.inputs.js';
import { Volunteer } from './volunteer.entity.js';
import { todayOf, VolunteerPayload } from './volunteer.payload.js';
import { Volunteers } from './volunteers.service.js';

const VolunteerConnection = Connection('Volunteer', () => Volunteer);

const AddVolunteerResult = refusable('AddVolunteerResult', () => VolunteerPayload);
const EditVolunteerResult = refusable('EditVolunteerResult', () => VolunteerPayload);

@Resolver(() => Volunteer)
export class VolunteersResolver {
  constructor(
    @Inject(Volunteers) private readonly people: Volunteers,
    @Inject(Database) private readonly database: Database,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => VolunteerConnection, { description: 'Everybody who may come, by name.' })
  volunteers(@CurrentCaller() caller: Caller, @Args() page: PageArgs): Promise<ConnectionOf<Volunteer>> {
    return this.people.list(caller, page);
  }

  @AllowSignedIn()
  @Query(() => Volunteer, {
    nullable: true,
    description: 'One person: for staff anybody, for everybody themselves; else null.',
  })
  volunteer(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Their id.' }) id: string,
  ): Promise<Volunteer | null> {
    return this.people.one(caller, id);
  }

  @Allow('director', 'coordinator')
  @Mutation(() => AddVolunteerResult, {
    description: 'Writes somebody into the crew’s list; no account is needed.',
  })
  async addVolunteer(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'What is known about them.' }) input: VolunteerInput,
  ): Promise<VolunteerPayload> {
    const volunteer = await this.people.add(caller, {
      name: input.name,
      kind: input.kind,
      bornOn: input.bornOn ?? null,
      email: input.email ?? null,
      minutesAWeek: input.minutesAWeek ?? null,
      minutesATurnout: input.minutesATurnout ?? null,
    });
    return Object.assign(new VolunteerPayload(), { volunteer });
  }

  @Allow('director', 'coordinator')
  @Mutation(() => EditVolunteerResult, { description: 'Changes what is written down about somebody.' })
  async editVolunteer(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Their id.' }) id: string,
    @Args('version', { type: () => Int, description: 'The version that was read.' }) version: number,
    @Args('input', { description: 'What changes.' }) input: VolunteerChanges,
  ): Promise<VolunteerPayload> {
    const volunteer = await this.people.edit(caller, id, version, input);
    return Object.assign(new VolunteerPayload(), { volunteer });
  }

  @ResolveField(() => Int, {
    nullable: true,
    description: 'Age in years on the yard’s day; null when unknown.',
  })
  async age(@Parent() one: Volunteer, @Context() context: RequestContext): Promise<number | null> {
    if (one.bornOn === null) return null;
    return ageOn(one.bornOn, await todayOf(context, this.yardDay, one.organisationId));
  }

  @ResolveField(() => [SkillLevel], { description: 'What they have been signed off for; at most 100.' })
  skills(@Parent() one: Volunteer, @Context() context: RequestContext): Promise<SkillLevel[]> {
    return levelsLoader(context, this.database.read).load(one.id);
  }

  @ResolveField(() => [Card], { description: 'Cards that they have shown; at most 100.' })
  async cards(@Parent() one: Volunteer, @Context() context: RequestContext): Promise<Card[]> {
    const hand = await handLoader(context, this.database.read, one.organisationId).load(one.id);
    return hand.cards.slice(0, 100).map((card) => ({ ...card, organisationId: one.organisationId }));
  }

  @ResolveField(() => AvailabilityType, { description: 'When they can come.' })
  availability(@Parent() one: Volunteer, @Context() context: RequestContext): Promise<AvailabilityType> {
    return handLoader(context, this.database.read, one.organisationId).load(one.id);
  }
}
