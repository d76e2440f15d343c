import { LocalDate } from '@ribband/platform';
import { Field, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Task } from '../tasks/task.entity.js';
import type { Eyes } from '@ribband/hull';

export const EyesEnum = {
  SURVEYOR: 'surveyor',
  INSURER: 'insurer',
  FUNDER: 'funder',
  INSPECTOR: 'inspector',
  SLING: 'sling',
} as const;
registerEnumType(EyesEnum, {
  name: 'Eyes',
  description: 'Who has to see the work before it goes on.',
  valuesMap: {
    SURVEYOR: { description: 'The surveyor, before it is closed over.' },
    INSURER: { description: 'The insurer, before it is closed over.' },
    FUNDER: { description: 'Who gave the money, before it is closed over.' },
    INSPECTOR: { description: 'An inspector of the authorities, before it is closed over.' },
    SLING: {
      description: 'A named person: the piece is slung and its zone clear, before its last fastening is cut.',
    },
  },
});

@ObjectType('HoldPoint', { description: 'Eyes that must see the work before it is closed over or cut free.' })
export class HoldPointType {
  @Field(() => Task, { description: 'The say-so that waits for them.' })
  task!: Task;

  @Field(() => EyesEnum, { description: 'Whose eyes.' })
  eyes!: Eyes;

  @Field(() => Int, { description: 'So many days before, they want to be told.' })
  noticeDays!: number;

  @Field(() => LocalDate, { nullable: true, description: 'When they were told; null while they were not.' })
  noticeOn!: string | null;

  @Field(() => String, { nullable: true, description: 'Who told them.' })
  noticeBy!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'When it was seen; null while it was not.' })
  seenOn!: string | null;

  @Field(() => String, { nullable: true, description: 'Who saw it.' })
  seenBy!: string | null;

  @Field(() => String, { nullable: true, description: 'A remark with it.' })
  note!: string | null;

  @Field(() => LocalDate, {
    nullable: true,
    description: 'The day that the plan gives it; null where it is passed or the plan leaves it out.',
  })
  plannedOn!: string | null;

  @Field(() => LocalDate, {
    nullable: true,
    description: 'The day by which notice has to go out to keep the plan’s day; null where none is wanted.',
  })
  noticeGoesOutBy!: string | null;

  @Field(() => Boolean, { description: 'Whether that day is past.' })
  noticeIsLate!: boolean;

  @Field(() => Boolean, { description: 'Whether the shipwright has passed it.' })
  passed!: boolean;
}

@ObjectType({ description: 'The hold points as the change left them.' })
export class HoldPointPayload {
  @Field(() => [HoldPointType], { description: 'The hold points; at most 100.' })
  holdPoints!: HoldPointType[];
}
