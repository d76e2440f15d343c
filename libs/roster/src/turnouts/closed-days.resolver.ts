import { Allow, AllowSignedIn, type Caller, CurrentCaller } from '@ribband/access';
import { readHolidays, YardDay } from '@ribband/crew';
import { addDays, LocalDate, refusable, refuse } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Mutation, Query, Resolver } from '@nestjs/graphql';
import { ClosedDayEntity } from './closed-day.entity.js';
import { ClosedDays } from './closed-days.service.js';
import { ClosedDaysPayload, ClosureInput, HolidaysPreview } from './turnout.types.js';

const CloseDaysResult = refusable('CloseDaysResult', () => ClosedDaysPayload);
const ReopenDaysResult = refusable('ReopenDaysResult', () => ClosedDaysPayload);
const PreviewHolidaysResult = refusable('PreviewHolidaysResult', () => HolidaysPreview);

/** How far ahead a file is read. */
const daysAhead = 800;

@Resolver()
export class ClosedDaysResolver {
  constructor(
    @Inject(ClosedDays) private readonly days: ClosedDays,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  @AllowSignedIn()
  @Query(() => [ClosedDayEntity], { description: 'Days on which the yard is closed; at most 1000.' })
  closedDays(@CurrentCaller() caller: Caller): Promise<ClosedDayEntity[]> {
    return this.days.list(caller);
  }

  @Allow('director', 'coordinator')
  @Mutation(() => CloseDaysResult, {
    description: 'Closes the yard for some days: no turnout is laid out on them, and nobody’s rules count.',
  })
  async closeDays(
    @CurrentCaller() caller: Caller,
    @Args('closures', { type: () => [ClosureInput], description: 'Which days.' }) closures: ClosureInput[],
    @Args('keepTurnouts', {
      type: () => Boolean,
      description:
        'Whether turnouts to which people are posted are held all the same; else they are called off.',
    })
    keepTurnouts: boolean,
  ): Promise<ClosedDaysPayload> {
    const wanted = closures.map(({ name = null, ...rest }) => ({ ...rest, name }));
    return Object.assign(new ClosedDaysPayload(), await this.days.close(caller, wanted, keepTurnouts));
  }

  @Allow('director', 'coordinator')
  @Mutation(() => ReopenDaysResult, { description: 'Opens closed days again.' })
  async reopenDays(
    @CurrentCaller() caller: Caller,
    @Args('fromOn', { type: () => LocalDate, description: 'The first day.' }) fromOn: string,
    @Args('toOn', { type: () => LocalDate, description: 'The last day.' }) toOn: string,
  ): Promise<ClosedDaysPayload> {
    const closedDays = await this.days.reopen(caller, fromOn, toOn);
    return Object.assign(new ClosedDaysPayload(), { closedDays, turnouts: [] });
  }

  @Allow('director', 'coordinator')
  @Mutation(() => PreviewHolidaysResult, {
    description: 'Reads the whole days of an .ics file. Changes nothing.',
  })
  async previewHolidays(
    @CurrentCaller() caller: Caller,
    @Args('text', { type: () => String, description: 'The file, at most 512 kilobytes.' }) text: string,
  ): Promise<HolidaysPreview> {
    const zone = await this.yardDay.zone(caller.organisationId);
    const today = await this.yardDay.today(caller.organisationId);
    const read = readHolidays(text, zone, today, addDays(today, daysAhead));
    if ('fault' in read)
      return refuse('BAD_INPUT', `Line ${read.fault.line}: ${read.fault.message}.`, {
        field: 'text',
        remedy: 'Export the calendar again as an .ics file, or put the line right.',
        facts: { line: read.fault.line },
      });
    return Object.assign(new HolidaysPreview(), read);
  }
}
