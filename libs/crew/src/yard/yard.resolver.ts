import { Me, Organisation, type RequestContext } from '@ribband/access';
import { Database, LocalDate } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { volunteerLoader } from '../crew.loaders.js';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import { todayOf } from '../volunteers/volunteer.payload.js';
import { YardDay } from './yard-day.js';

@Resolver(() => Organisation)
export class YardTodayResolver {
  constructor(@Inject(YardDay) private readonly yardDay: YardDay) {}

  @ResolveField(() => LocalDate, { description: 'What day it is at the yard, by its own clock.' })
  yardToday(@Parent() organisation: Organisation, @Context() context: RequestContext): Promise<string> {
    return todayOf(context, this.yardDay, organisation.id);
  }
}

@Resolver(() => Me)
export class MyVolunteerResolver {
  constructor(@Inject(Database) private readonly database: Database) {}

  @ResolveField(() => Volunteer, {
    nullable: true,
    description: 'Your own entry in the crew’s list; null when you have none.',
  })
  async volunteer(@Context() context: RequestContext): Promise<Volunteer | null> {
    const id = context.caller?.volunteerId;
    return id ? volunteerLoader(context, this.database.read).load(id) : null;
  }
}
