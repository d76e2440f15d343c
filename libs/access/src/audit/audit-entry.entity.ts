import { IdColumn, InstantColumn, JsonColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Index } from 'typeorm';
import { Organisation } from '../organisation/organisation.entity.js';

/** Who did what, when. Entries are only ever added. */
@Entity('audit_entry')
@Index(['organisationId', 'at'])
export class AuditEntry {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @InstantColumn()
  at!: number;

  /** Who did it; no foreign key, so that the entry outlives the account. Null: the server itself. */
  @RefColumn(null, { nullable: true, indexed: false })
  accountId!: string | null;

  /** Their name at that time. */
  @TextColumn()
  who!: string;

  /** What was done: the name of the operation. */
  @TextColumn()
  operation!: string;

  /** What it was done to. */
  @RefColumn(null, { nullable: true })
  subjectId!: string | null;

  @JsonColumn()
  facts!: object;
}
