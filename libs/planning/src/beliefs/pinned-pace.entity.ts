import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, RealColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';

/** A pace that the shipwright set by hand, whatever the tallies say. */
@Entity('pinned_pace')
@Unique(['organisationId', 'kind'])
export class PinnedPace {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The kind of work, as `kindOf` names it. */
  @TextColumn()
  kind!: string;

  /** Pieces a person-hour. */
  @RealColumn()
  pace!: number;

  @TextColumn()
  reason!: string;

  @TextColumn()
  pinnedBy!: string;

  @InstantColumn()
  pinnedAt!: number;
}
