import { Organisation } from '@ribband/access';
import { type Eyes, EYES } from '@ribband/hull';
import { DayColumn, IdColumn, IntegerColumn, OneOfColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { Task } from '../tasks/task.entity.js';

/** Eyes that a hold task waits for. Seen is what a named person saw, before the shipwright passes the task. */
@Entity('hold_point')
@Unique(['taskId'])
export class HoldPoint {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Task, { onDelete: 'CASCADE', indexed: false })
  taskId!: string;

  @OneOfColumn(EYES)
  eyes!: Eyes;

  /** So many days before, they want to be told. */
  @IntegerColumn()
  noticeDays!: number;

  @DayColumn({ nullable: true })
  noticeOn!: string | null;

  @TextColumn({ nullable: true })
  noticeBy!: string | null;

  @DayColumn({ nullable: true })
  seenOn!: string | null;

  @TextColumn({ nullable: true })
  seenBy!: string | null;

  @TextColumn({ nullable: true })
  note!: string | null;
}
