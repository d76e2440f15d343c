import { InstantColumn, IntegerColumn, RefColumn } from '@ribband/platform';
import { Entity, PrimaryColumn } from 'typeorm';

/** Which plan an organisation goes by: newest state of the records first, then the better value. */
@Entity('plan_in_force')
export class PlanInForceEntity {
  @PrimaryColumn('text')
  organisationId!: string;

  @RefColumn(null, { nullable: true, indexed: false })
  planId!: string | null;

  @IntegerColumn()
  revision!: number;

  /** When she is ready, epoch milliseconds; `noPlanValue` where there is no plan. Less is better. */
  @InstantColumn()
  value!: number;
}

/** Worse than any plan: the last instant that a date can hold. */
export const noPlanValue = 8_640_000_000_000_000;

/** Better than any plan, so that none of the same revision takes its place. */
export const unbeatable = -noPlanValue;
