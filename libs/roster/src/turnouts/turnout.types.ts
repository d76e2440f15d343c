import { LocalDate, LocalTime } from '@ribband/platform';
import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { ClosedDayEntity } from './closed-day.entity.js';
import { TurnoutRuleEntity } from './turnout-rule.entity.js';
import { TurnoutEntity } from './turnout.entity.js';

@InputType({ description: 'One turnout besides the rules.' })
export class TurnoutInput {
  @Field(() => LocalDate, { description: 'The day.' })
  on!: string;

  @Field(() => LocalTime, { description: 'When it starts.' })
  startTime!: string;

  @Field(() => LocalTime, { description: 'When it ends, the same day.' })
  endTime!: string;

  @Field(() => String, { nullable: true, description: 'Anything to know about it.' })
  note?: string | null;
}

@InputType({ description: 'A rule by which turnouts recur.' })
export class TurnoutRuleInput {
  @Field(() => ID, { nullable: true, description: 'Which rule changes; left out for a new one.' })
  id?: string | null;

  @Field(() => Int, { nullable: true, description: 'The version that was read, for one that changes.' })
  version?: number | null;

  @Field(() => String, { description: 'Which days, as a rule of RFC 5545 such as FREQ=WEEKLY;BYDAY=WE,SA.' })
  rule!: string;

  @Field(() => LocalDate, { description: 'The first day on which it counts.' })
  startsOn!: string;

  @Field(() => LocalDate, { nullable: true, description: 'The last day on which it counts.' })
  untilOn?: string | null;

  @Field(() => LocalTime, { description: 'When each turnout starts.' })
  startTime!: string;

  @Field(() => LocalTime, { description: 'When each turnout ends, the same day.' })
  endTime!: string;
}

@ObjectType({ description: 'The turnout as the change left it.' })
export class TurnoutPayload {
  @Field(() => TurnoutEntity, { description: 'The turnout.' })
  turnout!: TurnoutEntity;
}

@ObjectType({ description: 'The rule as the change left it.' })
export class TurnoutRulePayload {
  @Field(() => TurnoutRuleEntity, { description: 'The rule.' })
  turnoutRule!: TurnoutRuleEntity;
}

@InputType({ description: 'Days on which the yard is closed.' })
export class ClosureInput {
  @Field(() => LocalDate, { description: 'The first day.' })
  fromOn!: string;

  @Field(() => LocalDate, { description: 'The last day; the same for one day.' })
  toOn!: string;

  @Field(() => String, { nullable: true, description: 'What it is called, or why.' })
  name?: string | null;

  @Field(() => Boolean, { description: 'Whether it comes back every year, as far as turnouts are laid out.' })
  yearly!: boolean;
}

@ObjectType({ description: 'Days that were closed or opened again.' })
export class ClosedDaysPayload {
  @Field(() => [ClosedDayEntity], { description: 'The days; at most 1000.' })
  closedDays!: ClosedDayEntity[];

  @Field(() => [TurnoutEntity], {
    description: 'Turnouts with people that fell on them: called off, or kept; at most 1000.',
  })
  turnouts!: TurnoutEntity[];
}

@ObjectType({ description: 'Whole days of a calendar file.' })
export class FoundHoliday {
  @Field(() => LocalDate, { description: 'The first day.' })
  fromOn!: string;

  @Field(() => LocalDate, { description: 'The last day.' })
  toOn!: string;

  @Field(() => String, { description: 'What it is called; empty for nothing.' })
  name!: string;
}

@ObjectType({ description: 'What a calendar file says of holidays. Nothing has been kept yet.' })
export class HolidaysPreview {
  @Field(() => [FoundHoliday], { description: 'In order of time; at most 400. Keep them with closeDays.' })
  holidays!: FoundHoliday[];
}
