import type { HullOutline } from '@ribband/hull';
import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, JsonColumn, RefColumn, TextColumn, VersionColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { HaulOut } from '../haul-out/haul-out.entity.js';

/** How the hull is built, written down by counts and exceptions. One for each haul-out. */
@Entity('hull')
@Unique(['haulOutId'])
export class HullRecord {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => HaulOut, { onDelete: 'CASCADE', indexed: false })
  haulOutId!: string;

  /** Raised by every change of the outline. */
  @VersionColumn()
  version!: number;

  @JsonColumn()
  outline!: HullOutline;

  @TextColumn()
  changedBy!: string;

  @InstantColumn()
  changedAt!: number;
}
