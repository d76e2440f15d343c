import { Organisation } from '@ribband/access';
import {
  DayColumn,
  FlagColumn,
  IdColumn,
  InstantColumn,
  IntegerColumn,
  OneOfColumn,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Entity, Index, Unique } from 'typeorm';
import { WorkKindEntity } from './work-kind.entity.js';

/** How an entry came into the book. */
export const hourWays = ['self', 'coordinator', 'paper', 'adjustment'] as const;
export type HourWay = (typeof hourWays)[number];

/**
 * Time that one person gave to one piece of work on one day. But for the sign-off of an open one, rows are never
 * changed: a correction is a new row that points at the one it replaces; after the period is closed it is an
 * adjustment, a row of its own with minutes more or fewer, dated in a period that is open.
 */
@Entity('hour_entry')
@Unique(['correctsId'])
@Index(['organisationId', 'workedOn'])
@Index(['volunteerId', 'workedOn'])
export class HourEntryEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The entry that was made first, of this one and those that it corrects; its own id when it corrects none. */
  @RefColumn(null)
  rootId!: string;

  @RefColumn(null, { indexed: false })
  volunteerId!: string;

  /** Null for work that is on no task: sweeping, fetching, showing visitors round. */
  @RefColumn(null, { nullable: true })
  taskId!: string | null;

  @RefColumn(null, { nullable: true })
  turnoutId!: string | null;

  @RefColumn(() => WorkKindEntity, { indexed: false })
  kindId!: string;

  /** Local day at the yard on which it began; of an adjustment, the day on which it was made. */
  @DayColumn()
  workedOn!: string;

  /** Null for an adjustment. */
  @InstantColumn({ nullable: true })
  startsAt!: number | null;

  /** Null while somebody is signed on, and for an adjustment. */
  @InstantColumn({ nullable: true })
  endsAt!: number | null;

  /** From start to end; null while somebody is signed on; of an adjustment more than 0 or less. */
  @IntegerColumn({ nullable: true })
  minutes!: number | null;

  @OneOfColumn(hourWays)
  way!: HourWay;

  @TextColumn({ nullable: true })
  note!: string | null;

  @InstantColumn()
  enteredAt!: number;

  @TextColumn()
  enteredBy!: string;

  /** Name of who signed off, where that was said later than the start; "the roll" when the day's roll did. */
  @TextColumn({ nullable: true })
  endedBy!: string | null;

  /** Whether it was taken out: it says what was never so, or was entered twice. */
  @FlagColumn()
  isVoid!: boolean;

  @RefColumn(() => HourEntryEntity, { nullable: true, onDelete: 'CASCADE', indexed: false })
  correctsId!: string | null;

  /** Of an adjustment: the entry, by its first row, that it adds to or takes from. */
  @RefColumn(() => HourEntryEntity, { nullable: true, onDelete: 'CASCADE' })
  adjustsId!: string | null;

  /** Why it was corrected or adjusted. */
  @TextColumn({ nullable: true })
  reason!: string | null;
}
