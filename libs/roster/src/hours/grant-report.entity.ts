import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  InstantColumn,
  IntegerColumn,
  JsonColumn,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { GrantEntity } from './grant.entity.js';
import { HourEntryEntity } from './hour-entry.entity.js';
import type { ReportDocument } from './report-document.js';

/** A report as it was made: what it says is kept, so that it can be printed again and is the same. */
@Entity('grant_report')
export class GrantReportEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => GrantEntity)
  grantId!: string;

  @DayColumn()
  fromOn!: string;

  @DayColumn()
  toOn!: string;

  @JsonColumn()
  document!: ReportDocument;

  /** The same as RFC 4180 text. */
  @TextColumn()
  csv!: string;

  /** SHA-256, hexadecimal, of the document's JSON and the CSV text, a line feed between them. */
  @TextColumn()
  hash!: string;

  @IntegerColumn()
  minutes!: number;

  @IntegerColumn()
  cents!: number;

  @TextColumn()
  madeBy!: string;

  @InstantColumn()
  madeAt!: number;

  /** A report that was withdrawn claims nothing any more; what it said is kept. */
  @InstantColumn({ nullable: true })
  withdrawnAt!: number | null;

  @TextColumn({ nullable: true })
  withdrawnBy!: string | null;

  @TextColumn({ nullable: true })
  withdrawReason!: string | null;
}

/**
 * An entry's hours count for this award. The entry, named by its first row, is in the table once at most: one hour
 * counts for one award only (2 CFR 200.306(b)(2)).
 */
@Entity('hour_claim')
@Unique(['entryId'])
export class HourClaimEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => HourEntryEntity, { onDelete: 'CASCADE', indexed: false })
  entryId!: string;

  @RefColumn(() => GrantEntity)
  grantId!: string;

  @RefColumn(() => GrantReportEntity, { onDelete: 'CASCADE' })
  reportId!: string;
}
