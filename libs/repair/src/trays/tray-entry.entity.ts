import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, IntegerColumn, JsonColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { TallyEntity } from '../tallies/tally.entity.js';
import { Lot } from './lot.entity.js';
import { Tray } from './tray.entity.js';
import type { GradedHole, TrayLine } from './tray-line.js';

/** What was said of a tray at one time. Rows are never changed: a correction is a new row that points at the old. */
@Entity('tray_entry')
@Unique(['correctsId'])
export class TrayEntryEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Tray, { onDelete: 'CASCADE' })
  trayId!: string;

  /** The frame at which it was, where that was said. */
  @IntegerColumn({ nullable: true })
  frame!: number | null;

  @JsonColumn()
  lines!: TrayLine[];

  /** Nails and holes graded one by one; their counts stand in the lines. */
  @JsonColumn()
  holes!: GradedHole[];

  /** How many a count of the tray found, where somebody counted. */
  @IntegerColumn({ nullable: true })
  counted!: number | null;

  /** The lot from which bought fastenings were put in. */
  @RefColumn(() => Lot, { nullable: true })
  lotId!: string | null;

  /** The tally that was entered with it; its newest correction counts. */
  @RefColumn(() => TallyEntity, { nullable: true, onDelete: 'SET NULL' })
  tallyId!: string | null;

  /** The other tray's entry of a move between two; both name each other. */
  @RefColumn(null, { nullable: true, indexed: false })
  twinId!: string | null;

  @TextColumn({ nullable: true })
  note!: string | null;

  /** What the yard's clock said. */
  @InstantColumn()
  yardAt!: number;

  @InstantColumn()
  enteredAt!: number;

  @TextColumn()
  enteredBy!: string;

  /** The account that entered it; null where it came with a yard document. */
  @RefColumn(null, { nullable: true, indexed: false })
  accountId!: string | null;

  @RefColumn(() => TrayEntryEntity, { nullable: true, onDelete: 'CASCADE', indexed: false })
  correctsId!: string | null;

  /** Why it was corrected; null unless it is a correction. */
  @TextColumn({ nullable: true })
  reason!: string | null;
}
