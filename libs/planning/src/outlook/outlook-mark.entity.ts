import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  InstantColumn,
  IntegerColumn,
  JsonColumn,
  RealColumn,
  RefColumn,
} from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import type { Reason } from './event-words.js';

/** How things looked on one day at the yard: the last forecast of it. The trend is drawn through these. */
@Entity('outlook_mark')
@Unique(['organisationId', 'markedOn'])
export class OutlookMark {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The yard's day. */
  @DayColumn()
  markedOn!: string;

  @IntegerColumn()
  revision!: number;

  /** When the records were read that it is about. */
  @InstantColumn()
  madeAt!: number;

  /** Ready by this day in 50 of 100 futures; null past the last turnout. */
  @DayColumn({ nullable: true })
  evenOn!: string | null;

  /** Ready by this day in 80 of 100. */
  @DayColumn({ nullable: true })
  likelyOn!: string | null;

  @DayColumn()
  gateOn!: string;

  @RealColumn()
  gateOdds!: number;

  /** What was changed since the mark before; mere words in older marks. */
  @JsonColumn()
  reasons!: (string | Reason)[];
}
