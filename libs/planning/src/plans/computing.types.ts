import { DateTime } from '@ribband/platform';
import { Field, Float, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';

export const ComputingStateEnum = {
  WAITING: 'waiting',
  RUNNING: 'running',
  DONE: 'done',
  FAILED: 'failed',
} as const;
registerEnumType(ComputingStateEnum, {
  name: 'ComputingState',
  description: 'How a computation stands.',
  valuesMap: {
    WAITING: { description: 'It starts soon.' },
    RUNNING: { description: 'It is at work.' },
    DONE: { description: 'It has ended; a plan is in force.' },
    FAILED: { description: 'It broke off, and says why.' },
  },
});

@ObjectType({ description: 'How far a computation is.' })
export class ComputingProgress {
  @Field(() => Int, { description: 'How many orders of the work it has tried.' })
  schedules!: number;

  @Field(() => DateTime, { nullable: true, description: 'When she is ready by the best of them.' })
  bestReadyAt!: number | null;

  @Field(() => DateTime, { nullable: true, description: 'Before this none can be ready.' })
  boundReadyAt!: number | null;

  @Field(() => Float, { nullable: true, description: 'How much of its time is gone, 0 to 1.' })
  fraction!: number | null;
}

@ObjectType({ description: 'A computation that was asked for.' })
export class Computing {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => ComputingStateEnum, { description: 'How it stands.' })
  state!: (typeof ComputingStateEnum)[keyof typeof ComputingStateEnum];

  @Field(() => Int, { description: 'The state of the records that it was asked for, counted up.' })
  revision!: number;

  @Field(() => DateTime, { description: 'When it was asked for.' })
  askedAt!: number;

  @Field(() => DateTime, { nullable: true, description: 'When it began.' })
  startedAt!: number | null;

  @Field(() => DateTime, { nullable: true, description: 'When it ended.' })
  finishedAt!: number | null;

  @Field(() => ComputingProgress, { nullable: true, description: 'How far it is; null before it begins.' })
  progress!: ComputingProgress | null;

  @Field(() => String, { nullable: true, description: 'Why it failed or will be tried again.' })
  message!: string | null;
}

@ObjectType({ description: 'The computation that will make the plan.' })
export class AskForPlanPayload {
  @Field(() => Computing, { description: 'The computation.' })
  computing!: Computing;
}
