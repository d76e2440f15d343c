import { AllowSignedIn, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { NamedHand, Skill, skillLoader, volunteerLoader } from '@ribband/crew';
import { Bus, Database, refusable } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { Inject } from '@nestjs/common';
import {
  Args,
  Context,
  ID,
  Mutation,
  Parent,
  Query,
  ResolveField,
  Resolver,
  Subscription,
} from '@nestjs/graphql';
import { overrideSentence } from '../overrides/overrides.records.js';
import { overridesLoader, rosterTaskLoader, turnoutLoader } from '../roster.loaders.js';
import { type RosterNews, rosterTopic } from '../roster-news.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { OpenPlaces } from './open-places.service.js';
import { PlaceEntity } from './place.entity.js';
import { LeavePlacePayload, OpenPlace, RosterChanged, TakePlacePayload } from './place.types.js';
import { mayReadWhy } from './privacy.js';
import { Places } from './places.service.js';

const TakePlaceResult = refusable('TakePlaceResult', () => TakePlacePayload);
const LeavePlaceResult = refusable('LeavePlaceResult', () => LeavePlacePayload);

@Resolver(() => PlaceEntity)
export class PlacesResolver {
  constructor(
    @Inject(Places) private readonly places: Places,
    @Inject(OpenPlaces) private readonly openOnes: OpenPlaces,
    @Inject(Database) private readonly database: Database,
    @Inject(Bus) private readonly bus: Bus,
  ) {}

  @AllowSignedIn()
  @Query(() => [PlaceEntity], {
    description: 'What you have taken or are asked to take, soonest first; at most 200.',
  })
  myPlaces(@CurrentCaller() caller: Caller): Promise<PlaceEntity[]> {
    return this.places.mine(caller);
  }

  @AllowSignedIn()
  @Query(() => [OpenPlace], {
    description:
      'Places that stand open and that you are permitted to take, soonest turnout and most useful first; at most 200.',
  })
  openPlaces(@CurrentCaller() caller: Caller): Promise<OpenPlace[]> {
    return this.openOnes.permittedTo(caller);
  }

  @AllowSignedIn()
  @Mutation(() => TakePlaceResult, {
    description:
      'Takes a place for yourself, or as coordinator for somebody else. Every gate is asked again.',
  })
  async takePlace(
    @CurrentCaller() caller: Caller,
    @Args('placeId', { type: () => ID, description: 'Which place.' }) placeId: string,
    @Args('volunteerId', {
      type: () => ID,
      nullable: true,
      description: 'For whom, as coordinator; yourself when left out.',
    })
    volunteerId: string | null = null,
    @Args('key', {
      type: () => ID,
      nullable: true,
      description: 'Your own for this press: asked again with the same key, the answer is the same.',
    })
    key: string | null = null,
  ): Promise<TakePlacePayload> {
    return Object.assign(new TakePlacePayload(), {
      place: await this.places.take(caller, placeId, volunteerId, key),
    });
  }

  @AllowSignedIn()
  @Mutation(() => LeavePlaceResult, {
    description: 'Leaves a place of yours, or as coordinator somebody else’s. No reason is asked for.',
  })
  async leavePlace(
    @CurrentCaller() caller: Caller,
    @Args('placeId', { type: () => ID, description: 'Which place.' }) placeId: string,
    @Args('reason', { type: () => String, nullable: true, description: 'Why, if you want to say.' })
    reason: string | null = null,
    @Args('volunteerId', {
      type: () => ID,
      nullable: true,
      description: 'For whom, as coordinator; yourself when left out.',
    })
    volunteerId: string | null = null,
    @Args('key', {
      type: () => ID,
      nullable: true,
      description: 'Your own for this press: asked again with the same key, the answer is the same.',
    })
    key: string | null = null,
  ): Promise<LeavePlacePayload> {
    const place = await this.places.leave(caller, placeId, reason, volunteerId, key);
    return Object.assign(new LeavePlacePayload(), { place });
  }

  @AllowSignedIn()
  @Subscription(() => RosterChanged, {
    description: 'Each time that places or turnouts change.',
    resolve: (news: RosterNews): RosterChanged => news,
  })
  rosterChanged(@CurrentCaller() caller: Caller): AsyncIterableIterator<RosterNews> {
    return this.bus.listen<RosterNews>(rosterTopic(caller.organisationId));
  }

  @ResolveField(() => Task, { description: 'The work.' })
  task(@Parent() place: PlaceEntity, @Context() context: RequestContext): Promise<Task> {
    return rosterTaskLoader(context, this.database.read).load(place.taskId);
  }

  @ResolveField(() => TurnoutEntity, { description: 'The turnout.' })
  turnout(@Parent() place: PlaceEntity, @Context() context: RequestContext): Promise<TurnoutEntity> {
    return turnoutLoader(context, this.database.read).load(place.turnoutId);
  }

  @ResolveField(() => NamedHand, { nullable: true, description: 'Who; null while it stands open.' })
  async hand(@Parent() place: PlaceEntity, @Context() context: RequestContext): Promise<NamedHand | null> {
    if (place.volunteerId === null) return null;
    const volunteer = await volunteerLoader(context, this.database.read).load(place.volunteerId);
    return { volunteerId: volunteer.id, name: volunteer.name };
  }

  @ResolveField(() => NamedHand, {
    nullable: true,
    description: 'Beside whom its holder learns, over and above the crew; null for every other place.',
  })
  async teacher(@Parent() place: PlaceEntity, @Context() context: RequestContext): Promise<NamedHand | null> {
    if (place.teacherId === null) return null;
    const teacher = await volunteerLoader(context, this.database.read).load(place.teacherId);
    return { volunteerId: teacher.id, name: teacher.name };
  }

  @ResolveField(() => Skill, { nullable: true, description: 'The skill that it asks for; null for a hand.' })
  async skill(@Parent() place: PlaceEntity, @Context() context: RequestContext): Promise<Skill | null> {
    return place.skillId === null ? null : skillLoader(context, this.database.read).load(place.skillId);
  }

  @ResolveField(() => String, {
    nullable: true,
    description: 'Why this person: said to the person and to those who run the yard; null for others.',
  })
  why(@Parent() place: PlaceEntity, @CurrentCaller() caller: Caller): string | null {
    return mayReadWhy(caller, place) ? place.why : null;
  }

  @ResolveField(() => [String], {
    description:
      'Stops that somebody with authority has set aside for who has this place, by name and reason: said to the person and to those who run the yard; at most 40.',
  })
  async setAside(
    @Parent() place: PlaceEntity,
    @CurrentCaller() caller: Caller,
    @Context() context: RequestContext,
  ): Promise<string[]> {
    if (place.volunteerId === null || !mayReadWhy(caller, place)) return [];
    const rows = await overridesLoader(context, this.database.read, caller.organisationId).load(
      place.turnoutId,
    );
    return rows
      .filter(({ taskId, volunteerId }) => taskId === place.taskId && volunteerId === place.volunteerId)
      .map(overrideSentence);
  }
}
