import { LocalDate, LocalTime } from '@ribband/platform';
import { Field, InputType, ObjectType } from '@nestjs/graphql';
import type { ComingException, ComingRule } from './availability.types.js';

const words = {
  rule: 'The days, as an RFC 5545 rule without a start, such as FREQ=WEEKLY;BYDAY=WE,SA.',
  startsOn: 'The day from which it counts.',
  untilOn: 'The last day on which it counts; null for no end.',
  from: 'From when on such a day; null from the turnout’s start.',
  to: 'Until when on such a day; null until the turnout’s end.',
  fromOn: 'The first of the days.',
  toOn: 'The last of the days.',
  canCome: 'True: can come on these days as well. False: away.',
};

@ObjectType({ description: 'Days on which somebody can come, as a rule.' })
export class AvailabilityRule implements ComingRule {
  @Field(() => String, { description: words.rule })
  rule!: string;

  @Field(() => LocalDate, { description: words.startsOn })
  startsOn!: string;

  @Field(() => LocalDate, { nullable: true, description: words.untilOn })
  untilOn!: string | null;

  @Field(() => LocalTime, { nullable: true, description: words.from })
  from!: string | null;

  @Field(() => LocalTime, { nullable: true, description: words.to })
  to!: string | null;
}

@ObjectType({ description: 'Days that overrule the rules.' })
export class AvailabilityException implements ComingException {
  @Field(() => LocalDate, { description: words.fromOn })
  fromOn!: string;

  @Field(() => LocalDate, { description: words.toOn })
  toOn!: string;

  @Field(() => Boolean, { description: words.canCome })
  canCome!: boolean;

  @Field(() => LocalTime, { nullable: true, description: words.from })
  from!: string | null;

  @Field(() => LocalTime, { nullable: true, description: words.to })
  to!: string | null;
}

@ObjectType('Availability', { description: 'When somebody can come.' })
export class AvailabilityType {
  @Field(() => [AvailabilityRule], { description: 'The rule; at most 50.' })
  rules!: AvailabilityRule[];

  @Field(() => [AvailabilityException], {
    description: 'What overrules it, the later the stronger; at most 500.',
  })
  exceptions!: AvailabilityException[];
}

@InputType({ description: 'Days on which somebody can come, as a rule.' })
export class AvailabilityRuleInput {
  @Field(() => String, { description: words.rule })
  rule!: string;

  @Field(() => LocalDate, { description: words.startsOn })
  startsOn!: string;

  @Field(() => LocalDate, { nullable: true, description: words.untilOn })
  untilOn?: string | null;

  @Field(() => LocalTime, { nullable: true, description: words.from })
  from?: string | null;

  @Field(() => LocalTime, { nullable: true, description: words.to })
  to?: string | null;
}

@InputType({ description: 'Days that overrule the rules.' })
export class AvailabilityExceptionInput {
  @Field(() => LocalDate, { description: words.fromOn })
  fromOn!: string;

  @Field(() => LocalDate, { description: words.toOn })
  toOn!: string;

  @Field(() => Boolean, { description: words.canCome })
  canCome!: boolean;

  @Field(() => LocalTime, { nullable: true, description: words.from })
  from?: string | null;

  @Field(() => LocalTime, { nullable: true, description: words.to })
  to?: string | null;
}

/** What was left out means null. */
export const ruleOf = (input: AvailabilityRuleInput): ComingRule => ({
  rule: input.rule,
  startsOn: input.startsOn,
  untilOn: input.untilOn ?? null,
  from: input.from ?? null,
  to: input.to ?? null,
});

export const exceptionOf = (input: AvailabilityExceptionInput): ComingException => ({
  fromOn: input.fromOn,
  toOn: input.toOn,
  canCome: input.canCome,
  from: input.from ?? null,
  to: input.to ?? null,
});
