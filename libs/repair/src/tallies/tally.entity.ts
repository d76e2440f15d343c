import { Organisation } from '@ribband/access';
import { Volunteer } from '@ribband/crew';
import {
  DayColumn,
  FlagColumn,
  IdColumn,
  InstantColumn,
  IntegerColumn,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { Task } from '../tasks/task.entity.js';

/** What somebody got done. Rows are never changed: a correction is a new row that points at the one it replaces. */
@Entity('tally')
@Unique(['correctsId'])
export class TallyEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Task, { onDelete: 'CASCADE' })
  taskId!: string;

  /** Who did it, or null when it was several. */
  @RefColumn(() => Volunteer, { nullable: true })
  volunteerId!: string | null;

  /** The turnout at which it was done (kept by another room), or null. */
  @RefColumn(null, { nullable: true })
  turnoutId!: string | null;

  /** Local day at the yard. */
  @DayColumn()
  workedOn!: string;

  /** Pieces done; null where nothing is counted. */
  @IntegerColumn({ nullable: true })
  count!: number | null;

  /** Person-minutes. */
  @IntegerColumn()
  minutes!: number;

  /** Whether the task was said to be finished with it. */
  @FlagColumn()
  finished!: boolean;

  @TextColumn({ nullable: true })
  note!: string | null;

  /** What the yard's clock said when it was entered. */
  @InstantColumn()
  yardAt!: number;

  @InstantColumn()
  enteredAt!: number;

  /** Name of who entered it. */
  @TextColumn()
  enteredBy!: string;

  /** The tally that this one replaces, or null. */
  @RefColumn(() => TallyEntity, { nullable: true, onDelete: 'CASCADE', indexed: false })
  correctsId!: string | null;

  /** Why it was corrected; null unless it is a correction. */
  @TextColumn({ nullable: true })
  reason!: string | null;
}
