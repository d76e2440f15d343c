import { IdColumn, InstantColumn, IntegerColumn, JsonColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';

/** The secret address at which somebody's calendar can be read. Whoever knows it reads it: it can be revoked. */
@Entity('calendar_feed')
export class CalendarFeedEntity {
  @IdColumn()
  id!: string;

  @RefColumn(null)
  organisationId!: string;

  @RefColumn(null)
  volunteerId!: string;

  /** SHA-256 of the token: the address itself is shown once and kept nowhere. */
  @TextColumn({ unique: true })
  tokenHash!: string;

  @InstantColumn()
  madeAt!: number;

  /** When a calendar program last asked, to the hour; null before the first time. */
  @InstantColumn({ nullable: true })
  readAt!: number | null;
}

/** What a calendar shows of a place. */
export interface ShownEvent {
  startsAt: number;
  endsAt: number;
  summary: string;
  description: string;
  location: string;
  status: 'CONFIRMED' | 'TENTATIVE' | 'CANCELLED';
}

/**
 * What somebody's calendar was last told of a place. By it a change is known as one, whoever made it, and a place that is
 * gone can be told as cancelled.
 */
@Entity('calendar_event')
@Unique(['volunteerId', 'placeId'])
export class CalendarEventEntity {
  @IdColumn()
  id!: string;

  @RefColumn(null)
  organisationId!: string;

  @RefColumn(null, { indexed: false })
  volunteerId!: string;

  /** No foreign key: the event outlives the place. */
  @RefColumn(null, { indexed: false })
  placeId!: string;

  /** RFC 5545, section 3.8.7.4: raised by each change. */
  @IntegerColumn()
  sequence!: number;

  @JsonColumn()
  shown!: ShownEvent;

  /** Real time of the last change. */
  @InstantColumn()
  changedAt!: number;
}
