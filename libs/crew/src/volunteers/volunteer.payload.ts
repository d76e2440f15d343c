import type { RequestContext } from '@ribband/access';
import { Field, ObjectType } from '@nestjs/graphql';
import { loader } from '../graphql/loaders.js';
import type { YardDay } from '../yard/yard-day.js';
import { Volunteer } from './volunteer.entity.js';

@ObjectType({ description: 'The person as the change left them.' })
export class VolunteerPayload {
  @Field(() => Volunteer, { description: 'The person.' })
  volunteer!: Volunteer;
}

/** The days of a request: one look at the yard clock, however many people are shown. */
export function todayOf(
  context: Pick<RequestContext, 'loaders'>,
  yardDay: YardDay,
  organisationId: string,
): Promise<string> {
  return loader(context, 'crew.today', (ids: readonly string[]) =>
    Promise.all(ids.map((id) => yardDay.today(id))),
  ).load(organisationId);
}
