import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, JsonColumn, OneOfColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity } from 'typeorm';
import type { Supposed, WhatIfResult } from './supposed.js';

/** What became of a change when the what-if was applied. */
export interface AppliedChange {
  words: string;
  isDone: boolean;
  /** What is still to be done, or what to do instead; null where nothing is. */
  instead: string | null;
}

/** A change that somebody thought of, and what it would do. It never touches the plan in force. */
@Entity('what_if')
export class WhatIfEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @TextColumn()
  name!: string;

  @JsonColumn()
  changes!: Supposed[];

  @TextColumn()
  askedBy!: string;

  @InstantColumn()
  askedAt!: number;

  @OneOfColumn(['waiting', 'done', 'failed'])
  state!: 'waiting' | 'done' | 'failed';

  @JsonColumn({ nullable: true })
  result!: WhatIfResult | null;

  /** What became of it when it was applied; null before. */
  @JsonColumn({ nullable: true })
  applied!: { by: string; at: number; changes: AppliedChange[] } | null;

  /** Why it failed. */
  @TextColumn({ nullable: true })
  message!: string | null;
}
