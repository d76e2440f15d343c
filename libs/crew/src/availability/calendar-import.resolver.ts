import { AllowSignedIn, CurrentCaller, permitOwn, type Caller } from '@ribband/access';
import { addDays, refusable, refuse } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Field, ID, Int, Mutation, ObjectType, Resolver } from '@nestjs/graphql';
import { YardDay } from '../yard/yard-day.js';
import { AvailabilityException } from './availability.graphql.js';
import { type BusyDays, readIcs } from './read-ics.js';

/** How far ahead a file is read: a season and the winter after it. */
const daysAhead = 550;

@ObjectType({ description: 'What a calendar file says of when somebody is away. Nothing has been kept yet.' })
export class CalendarFilePreview implements BusyDays {
  @Field(() => [AvailabilityException], {
    description: 'Days and hours away, in order of time; at most 400. Keep them with setAvailability.',
  })
  exceptions!: AvailabilityException[];

  @Field(() => Int, { description: 'How many events make busy.' })
  read!: number;

  @Field(() => Int, { description: 'How many were passed over: cancelled, or marked as free.' })
  passedOver!: number;
}

const PreviewCalendarFileResult = refusable('PreviewCalendarFileResult', () => CalendarFilePreview);

@Resolver()
export class CalendarImportResolver {
  constructor(@Inject(YardDay) private readonly yardDay: YardDay) {}

  @AllowSignedIn()
  @Mutation(() => PreviewCalendarFileResult, {
    description:
      'Reads an .ics file and says when somebody would be away by it. Changes nothing; what is busy in it is not kept.',
  })
  async previewCalendarFile(
    @CurrentCaller() caller: Caller,
    @Args('volunteerId', { type: () => ID, description: 'For whom.' }) volunteerId: string,
    @Args('text', { type: () => String, description: 'The file, at most 512 kilobytes.' }) text: string,
  ): Promise<CalendarFilePreview> {
    permitOwn(caller, volunteerId, 'coordinator');
    const zone = await this.yardDay.zone(caller.organisationId);
    const today = await this.yardDay.today(caller.organisationId);
    const read = readIcs(text, zone, today, addDays(today, daysAhead));
    if ('fault' in read)
      return refuse('BAD_INPUT', `Line ${read.fault.line}: ${read.fault.message}.`, {
        field: 'text',
        remedy: 'Export the calendar again as an .ics file, or put the line right.',
        facts: { line: read.fault.line },
      });
    return Object.assign(new CalendarFilePreview(), read);
  }
}
