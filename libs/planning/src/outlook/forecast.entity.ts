import { Organisation } from '@ribband/access';
import type { Forecast } from '@ribband/engine';
import { InstantColumn, IntegerColumn, JsonColumn, RefColumn } from '@ribband/platform';
import { Entity, PrimaryColumn } from 'typeorm';
import type { ToldBelief } from '../beliefs/beliefs.js';
import type { Before } from './last-move.js';

/** What many futures of one plan say. It goes with its plan. */
@Entity('forecast')
export class ForecastEntity {
  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @PrimaryColumn('text')
  planId!: string;

  /** The state of the records that the plan was made from. */
  @IntegerColumn()
  revision!: number;

  @InstantColumn()
  madeAt!: number;

  /** When the records were read that it is about; null where the computation is no longer on record. */
  @InstantColumn({ nullable: true })
  lookedAt!: number | null;

  /** What it is compared with; null for a first one. */
  @JsonColumn({ nullable: true })
  before!: Before | null;

  @JsonColumn()
  document!: Forecast;

  /** What it takes the paces to be, with its evidence. */
  @JsonColumn()
  beliefs!: ToldBelief[];
}
