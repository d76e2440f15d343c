import { Organisation } from '@ribband/access';
import {
  IdColumn,
  InstantColumn,
  IntegerColumn,
  OneOfColumn,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Entity } from 'typeorm';
import { Tray } from './tray.entity.js';

export const repairVerdicts = ['confirmed', 'declined'] as const;
export type RepairVerdict = (typeof repairVerdicts)[number];

/** What the shipwright said to the repair that heads pulled through a plank ask for. Rows are only added. */
@Entity('plank_repair')
export class PlankRepair {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Tray, { onDelete: 'CASCADE' })
  trayId!: string;

  /** How many pulled-through heads it is about. */
  @IntegerColumn()
  count!: number;

  @OneOfColumn(repairVerdicts)
  verdict!: RepairVerdict;

  /** Ref of the task that was made of it. */
  @TextColumn({ nullable: true })
  taskRef!: string | null;

  /** Why nothing is to be done. */
  @TextColumn({ nullable: true })
  reason!: string | null;

  @TextColumn()
  decidedBy!: string;

  /** What the yard's clock said. */
  @InstantColumn()
  yardAt!: number;
}
