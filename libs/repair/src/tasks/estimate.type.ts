import { createUnionType, Field, Float, InputType, Int, ObjectType } from '@nestjs/graphql';

const points = {
  low: 'The least that it may well be.',
  likely: 'What it most likely is.',
  high: 'The most that it may well be.',
};

@ObjectType('ThreePoint', { description: 'An estimate in three points, rising.' })
export class ThreePointType {
  @Field(() => Float, { description: points.low })
  low!: number;

  @Field(() => Float, { description: points.likely })
  likely!: number;

  @Field(() => Float, { description: points.high })
  high!: number;
}

@ObjectType({ description: 'So many pieces, at so many an hour for one person.' })
export class CountEstimate {
  @Field(() => String, { description: 'What is counted, such as nails.' })
  unit!: string;

  @Field(() => Int, { description: 'How many there are.' })
  count!: number;

  @Field(() => Int, { description: 'How many are done and were not sent back.' })
  countDone!: number;

  @Field(() => Int, { description: 'How many are left.' })
  countLeft!: number;

  @Field(() => ThreePointType, { description: 'Pieces that one person does in an hour.' })
  perPersonHour!: ThreePointType;
}

@ObjectType({ description: 'Work that a crew shares.' })
export class WorkEstimate {
  @Field(() => ThreePointType, { description: 'Person-minutes of the whole work.' })
  personMinutes!: ThreePointType;
}

@ObjectType({ description: 'A length of time, whatever the crew.' })
export class TimeEstimate {
  @Field(() => ThreePointType, { description: 'Minutes.' })
  minutes!: ThreePointType;
}

export const EstimateType = createUnionType({
  name: 'Estimate',
  description: 'How long a task takes: by count and rate, by work, or by time.',
  types: () => [CountEstimate, WorkEstimate, TimeEstimate] as const,
  resolveType: (value: CountEstimate | WorkEstimate | TimeEstimate) =>
    'perPersonHour' in value ? CountEstimate : 'personMinutes' in value ? WorkEstimate : TimeEstimate,
});

@InputType({ description: 'An estimate in three points, rising.' })
export class ThreePointInput {
  @Field(() => Float, { description: points.low })
  low!: number;

  @Field(() => Float, { description: points.likely })
  likely!: number;

  @Field(() => Float, { description: points.high })
  high!: number;
}

@InputType({ description: 'So many pieces, at so many an hour for one person.' })
export class CountEstimateInput {
  @Field(() => String, { description: 'What is counted, such as nails.' })
  unit!: string;

  @Field(() => Int, { description: 'How many there are, 1 or more.' })
  count!: number;

  @Field(() => ThreePointInput, { description: 'Pieces that one person does in an hour.' })
  perPersonHour!: ThreePointInput;
}

@InputType({ description: 'How long a task takes: exactly one of the three.' })
export class EstimateInput {
  @Field(() => CountEstimateInput, { nullable: true, description: 'By count and rate.' })
  byCount?: CountEstimateInput | null;

  @Field(() => ThreePointInput, { nullable: true, description: 'By work: person-minutes.' })
  personMinutes?: ThreePointInput | null;

  @Field(() => ThreePointInput, { nullable: true, description: 'By time: minutes, whatever the crew.' })
  minutes?: ThreePointInput | null;
}
