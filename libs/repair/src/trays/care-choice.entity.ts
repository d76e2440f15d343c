import { Organisation } from '@ribband/access';
import type { Care } from '@ribband/hull';
import {
  IdColumn,
  InstantColumn,
  IntegerColumn,
  OneOfColumn,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Entity } from 'typeorm';

export const cares = ['save all', 'save sound ones', 'renew'] as const satisfies readonly Care[];

/** How carefully the fastenings of a kind are treated, with name and reason. Rows are only added; the newest counts. */
@Entity('care_choice')
export class CareChoiceEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @TextColumn()
  fastening!: string;

  @OneOfColumn(cares)
  care!: Care;

  @TextColumn()
  reason!: string;

  @TextColumn()
  chosenBy!: string;

  /** What the yard's clock said. */
  @InstantColumn()
  yardAt!: number;

  /** Tasks whose estimate was changed by it. */
  @IntegerColumn()
  tasksChanged!: number;
}
