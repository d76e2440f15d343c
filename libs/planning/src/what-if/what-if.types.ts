import { DateTime, LocalDate } from '@ribband/platform';
import { Field, Float, ID, InputType, Int, ObjectType, registerEnumType } from '@nestjs/graphql';

export const SupposedKindEnum = {
  DROP: 'drop',
  TURNOUTS: 'turnouts',
  RECRUIT: 'recruit',
  LATE: 'late',
} as const;
registerEnumType(SupposedKindEnum, {
  name: 'SupposedKind',
  description: 'What would be different.',
  valuesMap: {
    DROP: { description: 'Work is left out of the scope.' },
    TURNOUTS: { description: 'A further turnout each week.' },
    RECRUIT: { description: 'One more person, hired or asked.' },
    LATE: { description: 'What work waits for comes later.' },
  },
});

@InputType({ description: 'One change to be looked at. What a kind does not need is left out.' })
export class SupposedInput {
  @Field(() => SupposedKindEnum, { description: 'What would be different.' })
  kind!: (typeof SupposedKindEnum)[keyof typeof SupposedKindEnum];

  @Field(() => [ID], { nullable: true, description: 'The tasks left out, or that wait; at most 500.' })
  taskIds?: string[] | null;

  @Field(() => [Int], { nullable: true, description: 'Weekdays, 1 Monday to 7 Sunday.' })
  weekdays?: number[] | null;

  @Field(() => LocalDate, { nullable: true, description: 'First day.' })
  fromOn?: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'Last day.' })
  untilOn?: string | null;

  @Field(() => ID, { nullable: true, description: 'The skill of somebody new.' })
  skillId?: string | null;

  @Field(() => Int, { nullable: true, description: 'Their level: 1 learning to 4 may say so.' })
  level?: number | null;

  @Field(() => Int, { nullable: true, description: 'Days late.' })
  days?: number | null;
}

@ObjectType({ description: 'How things look, or would.' })
export class LookModel {
  @Field(() => LocalDate, { nullable: true, description: 'Ready if everyone comes.' })
  readyOn!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'Ready in 5 futures of 10.' })
  evenOn!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'Ready in 8 futures of 10.' })
  likelyOn!: string | null;

  @Field(() => Float, { description: 'Odds of the gate, 0 to 1.' })
  gateOdds!: number;

  @Field(() => String, { description: 'The odds as one says them.' })
  oddsWords!: string;

  @Field(() => [LocalDate], { description: 'Ready days at 0.5, 1.5, ... 99.5 %; at most 100.' })
  spread!: string[];
}

@ObjectType({ description: 'A change that somebody thought of, and what it would do.' })
export class WhatIf {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => String, { description: 'Its name.' })
  name!: string;

  @Field(() => String, { description: 'Who thought of it.' })
  askedBy!: string;

  @Field(() => DateTime, { description: 'When.' })
  askedAt!: number;

  @Field(() => Boolean, { description: 'Whether it is still being reckoned.' })
  isWaiting!: boolean;

  @Field(() => String, { nullable: true, description: 'Why nothing came of it.' })
  message!: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'What it would do, as a sentence; null until it is known.',
  })
  sentence!: string | null;

  @Field(() => LookModel, { nullable: true, description: 'As it was when it was asked.' })
  now!: LookModel | null;

  @Field(() => LookModel, { nullable: true, description: 'As it would be.' })
  then!: LookModel | null;
}

@ObjectType({ description: 'The what-if, kept.' })
export class WhatIfPayload {
  @Field(() => WhatIf, { description: 'It.' })
  whatIf!: WhatIf;
}

@ObjectType({ description: 'The what-if is gone.' })
export class ForgetWhatIfPayload {
  @Field(() => ID, { description: 'Which.' })
  id!: string;
}
