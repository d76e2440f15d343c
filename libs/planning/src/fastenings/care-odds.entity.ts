import { Organisation } from '@ribband/access';
import type { Care } from '@ribband/hull';
import { IdColumn, InstantColumn, JsonColumn, OneOfColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';

/** The odds of the gate if the fastenings of a kind were treated with that care, held against one plan in force. */
@Entity('care_odds')
@Unique(['organisationId', 'planId', 'fastening', 'care'])
export class CareOddsEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The plan in force that it is held against; odds of an older one are not shown. */
  @TextColumn()
  planId!: string;

  @TextColumn()
  fastening!: string;

  @OneOfColumn(['save all', 'save sound ones', 'renew'])
  care!: Care;

  @OneOfColumn(['waiting', 'done', 'failed'])
  state!: 'waiting' | 'done' | 'failed';

  /** 0 to 1 with its standard error; null while it waits, and where it failed. */
  @JsonColumn({ nullable: true })
  gate!: { odds: number; error: number } | null;

  /** Why it failed. */
  @TextColumn({ nullable: true })
  message!: string | null;

  @InstantColumn()
  askedAt!: number;
}
