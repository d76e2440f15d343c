import { DateTime, LocalDate } from '@ribband/platform';
import { Field, Float, ID, InputType, ObjectType, registerEnumType } from '@nestjs/graphql';
import type { ReadingTime } from './mark-reading.entity.js';
import { WitnessMark } from './witness-mark.entity.js';

export const ReadingTimeEnum = {
  AFLOAT: 'afloat',
  AFTER_BLOCKING: 'after blocking',
  LATER: 'later',
} as const;
registerEnumType(ReadingTimeEnum, {
  name: 'ReadingTime',
  description: 'When a mark was read.',
  valuesMap: {
    AFLOAT: { description: 'Afloat, before she is hauled out.' },
    AFTER_BLOCKING: { description: 'After blocking: the baseline, from which everything is measured.' },
    LATER: { description: 'On its rhythm after that.' },
  },
});

export const DriftEnum = {
  NO_BASELINE: 'no baseline',
  STEADY: 'steady',
  READ_AGAIN: 'read again',
  WARN: 'warn',
  HOLD: 'hold',
} as const;
registerEnumType(DriftEnum, {
  name: 'Drift',
  description: 'What the readings of a mark say.',
  valuesMap: {
    NO_BASELINE: {
      description: 'Not yet read after blocking by two readers, each twice: nothing is opened before.',
    },
    STEADY: { description: 'She has kept her shape there.' },
    READ_AGAIN: { description: 'It seems to have moved: two readers, each twice, before it counts.' },
    WARN: { description: 'It has moved 1/8 in or more: look at shores and braces.' },
    HOLD: { description: 'It has moved 1/4 in or more: every opening task is held.' },
  },
});

@ObjectType({ description: 'One reading of a mark.' })
export class WitnessReading {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => LocalDate, { name: 'on', description: 'The day.' })
  readOn!: string;

  @Field(() => ReadingTimeEnum, { description: 'Afloat, after blocking, or later.' })
  time!: ReadingTime;

  @Field(() => String, { description: 'Who read it.' })
  reader!: string;

  @Field(() => Float, { description: 'What the tape said, in millimetres.' })
  millimetres!: number;

  @Field(() => String, { nullable: true, description: 'Who struck it as misread; null while it counts.' })
  struckBy!: string | null;

  @Field(() => String, { nullable: true, description: 'How it came to be misread.' })
  struckReason!: string | null;
}

@ObjectType({ description: 'The shipwright’s word that opening may go on.' })
export class LiftedHold {
  @Field(() => String, { description: 'Their name.' })
  by!: string;

  @Field(() => String, { description: 'Their reason.' })
  reason!: string;

  @Field(() => DateTime, { description: 'When.' })
  liftedAt!: number;
}

@ObjectType({ description: 'A mark and what it says today.' })
export class WitnessMarkToday {
  @Field(() => WitnessMark, { description: 'The mark.' })
  mark!: WitnessMark;

  @Field(() => [WitnessReading], { description: 'All readings in the order of entry; at most 2000.' })
  readings!: WitnessReading[];

  @Field(() => [LiftedHold], { description: 'Holds that were lifted; at most 200.' })
  lifted!: LiftedHold[];

  @Field(() => DriftEnum, { description: 'What the readings say.' })
  drift!: (typeof DriftEnum)[keyof typeof DriftEnum];

  @Field(() => String, { description: 'The same as a sentence.' })
  says!: string;

  @Field(() => Float, {
    nullable: true,
    description: 'Millimetres from the baseline on the last day it was read; null without a baseline.',
  })
  movedMillimetres!: number | null;

  @Field(() => Float, { nullable: true, description: 'The trend, in millimetres a week.' })
  millimetresAWeek!: number | null;

  @Field(() => String, { nullable: true, description: 'Why all opening is held; null while it is not.' })
  held!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'Since when a reading is due; null while none is.' })
  dueOn!: string | null;

  @Field(() => ReadingTimeEnum, { nullable: true, description: 'Which reading is due.' })
  due!: ReadingTime | null;
}

@ObjectType({ description: 'The mark as the change left it.' })
export class WitnessMarkPayload {
  @Field(() => WitnessMarkToday, { description: 'The mark.' })
  witnessMark!: WitnessMarkToday;
}

@InputType({ description: 'What somebody read at a mark.' })
export class ReadingInput {
  @Field(() => LocalDate, { description: 'The day.' })
  on!: string;

  @Field(() => ReadingTimeEnum, { description: 'Afloat, after blocking, or later.' })
  time!: ReadingTime;

  @Field(() => String, { description: 'Who read it.' })
  reader!: string;

  @Field(() => Float, { description: 'What the tape said, in millimetres.' })
  millimetres!: number;
}
