import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  InstantColumn,
  OneOfColumn,
  RealColumn,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Entity } from 'typeorm';
import { WitnessMark } from './witness-mark.entity.js';

export const readingTimes = ['afloat', 'after blocking', 'later'] as const;
export type ReadingTime = (typeof readingTimes)[number];

/** One reading of a mark by one reader. Rows are only added; one that was misread is struck with a reason. */
@Entity('mark_reading')
export class MarkReading {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => WitnessMark, { onDelete: 'CASCADE' })
  markId!: string;

  @DayColumn()
  readOn!: string;

  @OneOfColumn(readingTimes)
  time!: ReadingTime;

  @TextColumn()
  reader!: string;

  @RealColumn()
  millimetres!: number;

  @InstantColumn()
  enteredAt!: number;

  @TextColumn()
  enteredBy!: string;

  @TextColumn({ nullable: true })
  struckBy!: string | null;

  @TextColumn({ nullable: true })
  struckReason!: string | null;
}
