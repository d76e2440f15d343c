import { Organisation } from '@ribband/access';
import { DayColumn, IdColumn, RefColumn, TextColumn, VersionColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';

/** A rule by which turnouts recur (RFC 5545), with the local hours of each. */
@Entity('turnout_rule')
@Unique(['organisationId', 'ref'])
export class TurnoutRuleEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  /** The key by which yard documents name it. */
  @TextColumn()
  ref!: string;

  @VersionColumn()
  version!: number;

  @TextColumn()
  rule!: string;

  @DayColumn()
  startsOn!: string;

  @DayColumn({ nullable: true })
  untilOn!: string | null;

  /** Local time of day HH:MM. */
  @TextColumn()
  startTime!: string;

  @TextColumn()
  endTime!: string;
}
