import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, JsonColumn, RefColumn, TextColumn, VersionColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { HaulOut } from '../haul-out/haul-out.entity.js';
import type { MethodsDocument } from './methods-shape.js';
import type { Made } from './work-out.js';

/** The yard's methods, and what was last made by them: what a change is compared with. */
@Entity('methods')
@Unique(['haulOutId'])
export class MethodsRecord {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => HaulOut, { onDelete: 'CASCADE', indexed: false })
  haulOutId!: string;

  /** Raised by every change. */
  @VersionColumn()
  version!: number;

  @JsonColumn()
  methods!: MethodsDocument;

  /** Tasks and links as the methods made them last, whatever was changed in them by hand since. */
  @JsonColumn()
  made!: Made;

  @TextColumn()
  changedBy!: string;

  @InstantColumn()
  changedAt!: number;
}
