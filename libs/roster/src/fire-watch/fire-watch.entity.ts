import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, IntegerColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

/**
 * The watch over one piece of hot work at one turnout, as somebody wrote it down. Rows are never changed: the one with
 * the highest version counts, the earlier ones are the trail.
 */
@Entity('fire_watch')
@Unique(['turnoutId', 'taskId', 'version'])
export class FireWatchEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => TurnoutEntity, { onDelete: 'CASCADE', indexed: false })
  turnoutId!: string;

  @RefColumn(null, { indexed: false })
  taskId!: string;

  /** From 1, one more with each writing. */
  @IntegerColumn()
  version!: number;

  /** Who watches; null only where no hot work was done. */
  @RefColumn(null, { nullable: true, indexed: false })
  watchId!: string | null;

  /** Why no hot work was done after all; null where it was. */
  @TextColumn({ nullable: true })
  notLit!: string | null;

  /** Null while the work goes on. By the yard's clock, as all instants here. */
  @InstantColumn({ nullable: true })
  lastSparkAt!: number | null;

  /** Who looks again, or has. */
  @TextColumn({ nullable: true })
  lookBy!: string | null;

  @InstantColumn({ nullable: true })
  lookDueAt!: number | null;

  @InstantColumn({ nullable: true })
  lookedAt!: number | null;

  /** What the later look found. */
  @TextColumn({ nullable: true })
  found!: string | null;

  /** Why something that was written down before reads otherwise now. */
  @TextColumn({ nullable: true })
  reason!: string | null;

  @TextColumn()
  writtenBy!: string;

  @InstantColumn()
  writtenAt!: number;
}
