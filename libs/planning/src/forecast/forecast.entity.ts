import { Organisation } from '@ribband/access';
import type { Forecast } from '@ribband/engine';
import { DayColumn, IdColumn, InstantColumn, JsonColumn, RefColumn } from '@ribband/platform';
import { Entity, Index, Unique } from 'typeorm';
import { PlanEntity } from '../plans/plan.entity.js';

/** What many futures of one plan say. */
@Entity('forecast')
@Index(['organisationId', 'madeAt'])
export class ForecastEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @RefColumn(() => PlanEntity, { onDelete: 'CASCADE' })
  planId!: string;

  @InstantColumn()
  madeAt!: number;

  /** In minutes and indices of the plan's problem. */
  @JsonColumn()
  result!: Forecast;

  /** What the paces rest on, as sentences. */
  @JsonColumn()
  paces!: string[];
}

/** One dated line of how the forecast moved: the last forecast of each day at the yard. Never forgotten. */
@Entity('forecast_day')
@Unique(['organisationId', 'madeOn'])
export class ForecastDay {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** By the yard's clock. */
  @DayColumn()
  madeOn!: string;

  /** Ready by this day in 50, 80 and 95 of 100 futures; null where it lies past the last turnout. */
  @JsonColumn()
  readyOn!: { p50: string | null; p80: string | null; p95: string | null };

  /** Odds of the gate and of the first slot after it, 0 to 1. */
  @JsonColumn()
  odds!: { gate: number; fallback: number };

  /** What had changed before the plans of that day, in words. */
  @JsonColumn()
  why!: string[];
}
