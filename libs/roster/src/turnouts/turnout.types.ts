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

@ObjectType({ description: 'The day that was closed.' })
export class ClosedDayPayload {
  @Field(() => ClosedDayEntity, { description: 'The day.' })
  closedDay!: ClosedDayEntity;
}
