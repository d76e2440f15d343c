import { Organisation } from '@ribband/access';
import {
  IdColumn,
  InstantColumn,
  IntegerColumn,
  OneOfColumn,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Entity, Index } from 'typeorm';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

export const placeStates = ['posted', 'taken', 'left'] as const;
export type PlaceState = (typeof placeStates)[number];

/**
 * One person's seat on one task at one turnout.
 *
 *     posted, nobody named   open to whoever is permitted
 *     posted to somebody     asked; they say yes by taking it, no by leaving it
 *     taken                  somebody said yes
 *     left                   somebody said no; the row stays, and an open place stands beside it
 */
@Entity('place')
@Index(['turnoutId', 'taskId'])
@Index(['volunteerId', 'state'])
export class PlaceEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => TurnoutEntity, { indexed: false })
  turnoutId!: string;

  @RefColumn(null)
  taskId!: string;

  @VersionColumn()
  version!: number;

  /** The skill that the seat asks for, or null for a hand. */
  @RefColumn(null, { nullable: true, indexed: false })
  skillId!: string | null;

  /** Least level 1..4, or 0 for a hand. */
  @IntegerColumn()
  level!: number;

  @RefColumn(null, { nullable: true, indexed: false })
  volunteerId!: string | null;

  @OneOfColumn(placeStates)
  state!: PlaceState;

  /** Inside the turnout's times. */
  @InstantColumn()
  startsAt!: number;

  @InstantColumn()
  endsAt!: number;

  /** Why this person, or what the place is for, in words. */
  @TextColumn({ nullable: true })
  why!: string | null;

  /** The plan it was posted from, or null when it was entered by hand or read from a document. */
  @RefColumn(null, { nullable: true, indexed: false })
  planId!: string | null;

  @InstantColumn({ nullable: true })
  takenAt!: number | null;

  @InstantColumn({ nullable: true })
  leftAt!: number | null;

  @TextColumn({ nullable: true })
  leftReason!: string | null;
}
