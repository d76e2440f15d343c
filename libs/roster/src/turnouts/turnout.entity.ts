import { Organisation } from '@ribband/access';
import { DayColumn, IdColumn, InstantColumn, RefColumn, TextColumn, VersionColumn } from '@ribband/platform';
import { Entity, Index, Unique } from 'typeorm';
import { TurnoutRuleEntity } from './turnout-rule.entity.js';

/** One dated working session at the yard. */
@Entity('turnout')
@Unique(['organisationId', 'heldOn', 'startTime'])
@Index(['organisationId', 'startsAt'])
export class TurnoutEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The rule that made it, or null for one entered by hand. */
  @RefColumn(() => TurnoutRuleEntity, { nullable: true, onDelete: 'SET NULL' })
  ruleId!: string | null;

  @VersionColumn()
  version!: number;

  /** The local day. */
  @DayColumn()
  heldOn!: string;

  /** Local times of day HH:MM. */
  @TextColumn()
  startTime!: string;

  @TextColumn()
  endTime!: string;

  @InstantColumn()
  startsAt!: number;

  @InstantColumn()
  endsAt!: number;

  @TextColumn({ nullable: true })
  note!: string | null;

  @InstantColumn({ nullable: true })
  cancelledAt!: number | null;

  @TextColumn({ nullable: true })
  cancelReason!: string | null;
}
