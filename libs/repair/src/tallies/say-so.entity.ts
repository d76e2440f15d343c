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
import { Task } from '../tasks/task.entity.js';

const verdicts = ['passed', 'sent-back'] as const;
export type SaySoVerdict = (typeof verdicts)[number];

/** What the shipwright said about work that was shown. Rows are only added; the newest counts. */
@Entity('say_so')
export class SaySo {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Task, { onDelete: 'CASCADE' })
  taskId!: string;

  @OneOfColumn(verdicts)
  verdict!: SaySoVerdict;

  @TextColumn()
  saidBy!: string;

  /** What the yard's clock said. */
  @InstantColumn()
  yardAt!: number;

  @InstantColumn()
  saidAt!: number;

  /** A remark with a pass, the reason with a sending back. */
  @TextColumn({ nullable: true })
  note!: string | null;

  /** Pieces to do again. */
  @IntegerColumn()
  countBack!: number;

  /** Person-minutes to do again, where nothing is counted. */
  @IntegerColumn()
  minutesBack!: number;
}
