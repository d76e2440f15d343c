import { DateTime, LocalDate } from '@ribband/platform';
import { Field, Float, ID, InputType, Int, ObjectType, registerEnumType } from '@nestjs/graphql';

export const SupposedKindEnum = {
  DROP: 'drop',
  TURNOUTS: 'turnouts',
  RECRUIT: 'recruit',
  LATE: 'late',
  SOONER: 'sooner',
  TOOL: 'tool',
  TRAIN: 'train',
} as const;
registerEnumType(SupposedKindEnum, {
  name: 'SupposedKind',
  description: 'What would be different.',
  valuesMap: {
    DROP: { description: 'Work is left out of the scope.' },
    TURNOUTS: { description: 'A further turnout each week.' },
    RECRUIT: { description: 'One more person, hired or asked.' },
    LATE: { description: 'What work waits for comes later.' },
    SOONER: { description: 'What work waits for comes sooner.' },
    TOOL: { description: 'There is more of a tool.' },
    TRAIN: { description: 'Somebody teaches somebody else.' },
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

  @Field(() => Int, {
    nullable: true,
    description: 'Their level, or the one reached: 1 learning to 4 may say so.',
  })
  level?: number | null;

  @Field(() => Int, { nullable: true, description: 'Days later, or sooner: 1 to 365.' })
  days?: number | null;

  @Field(() => ID, { nullable: true, description: 'The tool that there is more of.' })
  toolId?: string | null;

  @Field(() => Int, { nullable: true, description: 'How many more: 1 to 10.' })
  more?: number | null;

  @Field(() => ID, { nullable: true, description: 'Who learns.' })
  volunteerId?: string | null;

  @Field(() => ID, { nullable: true, description: 'Who teaches.' })
  trainerId?: string | null;
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

@ObjectType({ description: 'What became of a change when its what-if was applied.' })
export class AppliedChangeModel {
  @Field(() => String, { description: 'The change.' })
  words!: string;

  @Field(() => Boolean, { description: 'Whether it was entered.' })
  isDone!: boolean;

  @Field(() => String, {
    nullable: true,
    description: 'What is still to be done, or to do instead; null where nothing is.',
  })
  instead!: string | null;
}

@ObjectType({ description: 'A what-if that was applied: its changes were entered.' })
export class AppliedWhatIf {
  @Field(() => String, { description: 'Who did it.' })
  by!: string;

  @Field(() => DateTime, { description: 'When.' })
  at!: number;

  @Field(() => [AppliedChangeModel], { description: 'What became of each change; at most 10.' })
  changes!: AppliedChangeModel[];
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

  @Field(() => [String], { description: 'What would be different, a sentence each; at most 10.' })
  changes!: string[];

  @Field(() => Boolean, {
    description:
      'Whether it was held against the plan in force, and nothing has changed since: then it can be applied.',
  })
  isOfPlan!: boolean;

  @Field(() => AppliedWhatIf, {
    nullable: true,
    description: 'What became of it; null before it is applied.',
  })
  applied!: AppliedWhatIf | null;

  @Field(() => Boolean, {
    description: 'Whether any of it can be entered here; to recruit and to teach are for people to do.',
  })
  canBeEntered!: boolean;

  @Field(() => [String], { description: 'What people do themselves for the rest of it; at most 10.' })
  byHand!: string[];

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
