import { DateTime } from '@ribband/platform';
import { Field, Float, ID, InputType, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { LocalMomentInput, Written } from '../trail/trail.types.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import type { PumpMeasure, PumpTrend } from './pump-trend.js';

const PumpMeasureEnum = { DEPTH: 'depth', STROKES: 'strokes', MINUTES: 'minutes' } as const;
registerEnumType(PumpMeasureEnum, {
  name: 'PumpMeasure',
  description: 'What is watched at the pumps.',
  valuesMap: {
    DEPTH: { description: 'The bilge water as it was found, in millimetres.' },
    STROKES: { description: 'Strokes pumped an hour.' },
    MINUTES: { description: 'Minutes pumped an hour.' },
  },
});

const PumpGoesEnum = { RISING: 'rising', FALLING: 'falling', LEVEL: 'level' } as const;
registerEnumType(PumpGoesEnum, {
  name: 'PumpGoes',
  description: 'How it goes. None of them says that she is safe.',
  valuesMap: {
    RISING: { description: 'More than before.' },
    FALLING: { description: 'Less than before.' },
    LEVEL: { description: 'No more apart than two people read it.' },
  },
});

@ObjectType('PumpTrend', {
  description: 'How the last figures of one measure go, over the watches of the last two days.',
})
export class PumpTrendType {
  @Field(() => PumpMeasureEnum, { description: 'What is watched.' })
  measure!: PumpMeasure;

  @Field(() => PumpGoesEnum, { description: 'How it goes.' })
  goes!: PumpTrend['goes'];

  @Field(() => DateTime, { description: 'The round since which.' })
  since!: number;

  @Field(() => DateTime, { description: 'The last round.' })
  latestAt!: number;

  @Field(() => Float, { description: 'What it was then.' })
  from!: number;

  @Field(() => Float, { description: 'What it is at the last round.' })
  latest!: number;

  @Field(() => Float, { description: 'The change in an hour; below 0 where it falls.' })
  perHour!: number;
}

@ObjectType({ description: 'A round at the pumps as somebody wrote it down.' })
export class PumpWritten extends Written {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => DateTime, { description: 'When somebody looked.' })
  readAt!: number;

  @Field(() => Int, {
    nullable: true,
    description: 'Bilge water as it was found, before pumping, in millimetres; null where nobody sounded it.',
  })
  depthMillimetres!: number | null;

  @Field(() => Int, {
    nullable: true,
    description: 'Strokes pumped since the round before; null: not counted.',
  })
  strokes!: number | null;

  @Field(() => Int, {
    nullable: true,
    description: 'Minutes pumped since the round before; null: not counted.',
  })
  minutes!: number | null;

  @Field(() => String, { description: 'Who looked and pumped.' })
  doneBy!: string;

  @Field(() => String, { nullable: true, description: 'Anything else that was seen.' })
  remark!: string | null;
}

@ObjectType({ description: 'A round at the pumps as it counts now.' })
export class PumpLineType {
  @Field(() => PumpWritten, { description: 'As it was written last.' })
  now!: PumpWritten;

  @Field(() => Boolean, { description: 'Whether it was struck out and counts no longer.' })
  struck!: boolean;

  @Field(() => [PumpWritten], { description: 'As it was written before, the newest first.' })
  before!: PumpWritten[];
}

@ObjectType('PumpLog', {
  description: 'What was written at the pumps on one watch. It never says that she is safe.',
})
export class PumpLogType {
  @Field(() => TurnoutEntity, { description: 'The watch.' })
  turnout!: TurnoutEntity;

  @Field(() => Boolean, { description: 'Whether you may write it.' })
  mayWrite!: boolean;

  @Field(() => [PumpLineType], { description: 'The rounds, the latest first; at most 500.' })
  lines!: PumpLineType[];

  @Field(() => [PumpTrendType], {
    description: 'How it goes, for each measure that was taken twice; at most 3.',
  })
  trends!: PumpTrendType[];

  @Field(() => [String], { description: 'What is to be told to whom, was seen, or is missing; at most 2.' })
  warnings!: string[];
}

@InputType({
  description: 'A round at the pumps, at least one figure of it; or one in the place of another.',
})
export class PumpEntryInput {
  @Field(() => ID, { description: 'On which watch.' })
  turnoutId!: string;

  @Field(() => LocalMomentInput, {
    nullable: true,
    description:
      'When somebody looked, by the clock at the yard; where the clocks went back, the later of two that is not to come.',
  })
  read?: LocalMomentInput | null;

  @Field(() => DateTime, {
    nullable: true,
    description: 'In place of `read`, where the instant is known; to the minute.',
  })
  readAt?: number | null;

  @Field(() => Int, {
    nullable: true,
    description: 'Bilge water as it was found, before pumping: 0 to 10,000 mm.',
  })
  depthMillimetres?: number | null;

  @Field(() => Int, { nullable: true, description: 'Strokes pumped since the round before: 0 to 100,000.' })
  strokes?: number | null;

  @Field(() => Int, { nullable: true, description: 'Minutes pumped since the round before: 0 to 1,440.' })
  minutes?: number | null;

  @Field(() => String, { description: 'Who looked and pumped.' })
  doneBy!: string;

  @Field(() => String, { nullable: true, description: 'Anything else that was seen.' })
  remark?: string | null;

  @Field(() => ID, {
    nullable: true,
    description: 'Which entry it corrects; without any figure that one is struck out. It stays readable.',
  })
  correctsId?: string | null;

  @Field(() => String, { nullable: true, description: 'Why, where it corrects one.' })
  reason?: string | null;

  @Field(() => ID, {
    nullable: true,
    description: 'Your own for this press: asked again with the same key, the answer is the same.',
  })
  key?: string | null;
}

@ObjectType({ description: 'The log as it stands now.' })
export class PumpLogPayload {
  @Field(() => PumpLogType, { description: 'The log.' })
  pumpLog!: PumpLogType;
}
