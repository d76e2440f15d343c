import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, OneOfColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

/** How it became known that somebody came: ticked on the list, read from a badge, said by themselves, or from paper. */
export const attendanceWays = ['ticked', 'badge', 'self', 'paper'] as const;
export type AttendanceWay = (typeof attendanceWays)[number];

/** Somebody was at the yard at a turnout. One row a person and turnout; who comes back is there again. */
@Entity('attendance')
@Unique(['turnoutId', 'volunteerId'])
export class AttendanceEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => TurnoutEntity, { onDelete: 'CASCADE', indexed: false })
  turnoutId!: string;

  @RefColumn(null)
  volunteerId!: string;

  /** By the yard's clock. */
  @InstantColumn()
  arrivedAt!: number;

  /** By the yard's clock; null while they are there. */
  @InstantColumn({ nullable: true })
  leftAt!: number | null;

  @OneOfColumn(attendanceWays)
  how!: AttendanceWay;

  /** Name of who entered it. */
  @TextColumn()
  enteredBy!: string;
}
