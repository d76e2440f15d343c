import { Organisation } from '@ribband/access';
import { DayColumn, IdColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity } from 'typeorm';
import { Volunteer } from '../volunteers/volunteer.entity.js';

/** Days on which somebody can come, as a rule. */
@Entity('availability_rule')
export class AvailabilityRuleEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Volunteer, { onDelete: 'CASCADE' })
  volunteerId!: string;

  /** RFC 5545 rule text. */
  @TextColumn()
  rule!: string;

  @DayColumn()
  startsOn!: string;

  @DayColumn({ nullable: true })
  untilOn!: string | null;

  /** Local 'HH:MM'; null is the turnout's own start. */
  @TextColumn({ nullable: true })
  fromTime!: string | null;

  /** Local 'HH:MM'; null is the turnout's own end. */
  @TextColumn({ nullable: true })
  toTime!: string | null;
}
