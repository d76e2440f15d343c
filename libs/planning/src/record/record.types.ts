import { LocalDate } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';

@ObjectType({ description: 'A plan that was kept to be measured against.' })
export class Baseline {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => String, { description: 'Its name.' })
  name!: string;

  @Field(() => LocalDate, { description: 'The yard’s day on which it was kept.' })
  keptOn!: string;

  @Field(() => String, { description: 'Who kept it.' })
  keptBy!: string;

  @Field(() => LocalDate, { description: 'When she was to be ready by it.' })
  readyOn!: string;
}

@ObjectType({ description: 'One measure, with what it says.' })
export class Measure {
  @Field(() => String, { description: 'Its name.' })
  name!: string;

  @Field(() => Float, {
    nullable: true,
    description: 'The figure; null where there is nothing to divide by yet.',
  })
  value!: number | null;

  @Field(() => String, { description: 'What it says, in words.' })
  says!: string;
}

@ObjectType({ description: 'A schedule quality point: a hint, not a grade.' })
export class QualityHint {
  @Field(() => String, { description: 'What was looked for, and what was found.' })
  sentence!: string;

  @Field(() => Boolean, { description: 'Whether it lies within what the point asks.' })
  holds!: boolean;

  @Field(() => [Task], { description: 'Tasks that it names; at most 20.' })
  tasks!: Task[];

  @Field(() => Int, { description: 'How many it names in all.' })
  named!: number;
}

@ObjectType({
  description: 'The record: how things went against the baseline, and hints about the schedule.',
})
export class RecordModel {
  @Field(() => [Baseline], { description: 'Baselines, newest first; the newest counts. At most 20.' })
  baselines!: Baseline[];

  @Field(() => String, { description: 'Where the work stands against the baseline, as a sentence.' })
  sentence!: string;

  @Field(() => [Measure], { description: 'Earned value and earned schedule, by counts passed; at most 20.' })
  measures!: Measure[];

  @Field(() => [QualityHint], { description: 'The schedule quality points; at most 20.' })
  hints!: QualityHint[];
}

@ObjectType({ description: 'The baseline, kept.' })
export class KeepBaselinePayload {
  @Field(() => Baseline, { description: 'It.' })
  baseline!: Baseline;
}
