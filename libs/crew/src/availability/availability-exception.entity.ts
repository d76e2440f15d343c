import { Organisation } from '@ribband/access';
import { DayColumn, FlagColumn, IdColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity } from 'typeorm';
import { Volunteer } from '../volunteers/volunteer.entity.js';

/** Days that overrule the rules: away, or coming all the same. */
@Entity('availability_exception')
export class AvailabilityExceptionEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Volunteer, { onDelete: 'CASCADE' })
  volunteerId!: string;

  @DayColumn()
  fromOn!: string;

  /** Included. */
  @DayColumn()
  toOn!: string;

  @FlagColumn()
  canCome!: boolean;

  /** Local 'HH:MM'; null is the turnout's own start. */
  @TextColumn({ nullable: true })
  fromTime!: string | null;

  /** Local 'HH:MM'; null is the turnout's own end. */
  @TextColumn({ nullable: true })
  toTime!: string | null;
}
