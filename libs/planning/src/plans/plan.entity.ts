import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, IntegerColumn, JsonColumn, RefColumn } from '@ribband/platform';
import type { Outcome } from '@ribband/engine';
import { Entity, Index } from 'typeorm';
import { PlanInputEntity } from './plan-input.entity.js';

/** What the engine answered to one input. */
@Entity('plan')
@Index(['organisationId', 'madeAt'])
export class PlanEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @RefColumn(() => PlanInputEntity, { onDelete: 'CASCADE' })
  inputId!: string;

  /** The state of the records that it was made from. */
  @IntegerColumn()
  revision!: number;

  /** The computing job that made it. */
  @RefColumn(null)
  jobId!: string;

  @InstantColumn()
  madeAt!: number;

  /** When she is ready, or null where there is no plan. */
  @InstantColumn({ nullable: true })
  readyAt!: number | null;

  /** Generation passes after which the search stood here. */
  @IntegerColumn()
  schedules!: number;

  @JsonColumn()
  outcome!: Outcome;

  /** What had to be set aside to find it, in sentences. */
  @JsonColumn()
  notices!: string[];
}
