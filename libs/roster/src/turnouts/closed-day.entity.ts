import { Organisation } from '@ribband/access';
import { DayColumn, IdColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';

/** A day on which the yard is closed, whatever the rules say. */
@Entity('closed_day')
@Unique(['organisationId', 'closedOn'])
export class ClosedDayEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @DayColumn()
  closedOn!: string;

  @TextColumn({ nullable: true })
  reason!: string | null;
}
