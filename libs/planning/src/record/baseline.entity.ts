import { Organisation } from '@ribband/access';
import { DayColumn, IdColumn, InstantColumn, JsonColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity } from 'typeorm';

/** A plan as it was kept to be measured against. */
export interface BaselineDocument {
  readyAt: number;
  gateAt: number;
  /** Person-minutes that the estimate had for each task, and when the plan wanted it done. */
  tasks: { taskId: string; startsAt: number; endsAt: number; minutes: number }[];
}

/** A kept plan, named and dated. The newest counts. */
@Entity('baseline')
export class BaselineEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @TextColumn()
  name!: string;

  /** The yard's day. */
  @DayColumn()
  keptOn!: string;

  @TextColumn()
  keptBy!: string;

  @InstantColumn()
  madeAt!: number;

  @JsonColumn()
  document!: BaselineDocument;
}
