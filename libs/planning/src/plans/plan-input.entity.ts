import { Organisation } from '@ribband/access';
import { IdColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';

/** Exactly what a plan was computed from, so that it can be computed again. */
@Entity('plan_input')
@Unique(['organisationId', 'hash'])
export class PlanInputEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** SHA-256 of `document`, in hex. */
  @TextColumn()
  hash!: string;

  /** A `PlanInput` as JSON text: kept as text, so that the hash stays true. */
  @TextColumn()
  document!: string;
}
