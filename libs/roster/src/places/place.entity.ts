import { Organisation } from '@ribband/access';
import {
  DateTime,
  IdColumn,
  InstantColumn,
  IntegerColumn,
  newId,
  Node,
  OneOfColumn,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Entity, Index } from 'typeorm';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

const placeStates = ['posted', 'taken', 'left'] as const;
export type PlaceState = (typeof placeStates)[number];

const PlaceStateEnum = { POSTED: 'posted', TAKEN: 'taken', LEFT: 'left' } as const;
registerEnumType(PlaceStateEnum, {
  name: 'PlaceState',
  description: 'How a place stands.',
  valuesMap: {
    POSTED: { description: 'Open to whoever is permitted, or somebody is asked and has not answered.' },
    TAKEN: { description: 'Somebody said yes.' },
    LEFT: { description: 'Somebody said no.' },
  },
});

/**
 * One person's seat on one task at one turnout.
 *
 *     posted, nobody named   open to whoever is permitted
 *     posted to somebody     asked; they say yes by taking it, no by leaving it
 *     taken                  somebody said yes
 *     left                   somebody said no; the row stays, and an open place stands beside it
 *
 * A learner's place goes with its teacher's, and is never open: it falls away with either of the two.
 */
@ObjectType('Place', {
  implements: () => Node,
  description: 'One person’s seat on one task at one turnout.',
})
@Entity('place')
@Index(['turnoutId', 'taskId'])
@Index(['volunteerId', 'state'])
export class PlaceEntity {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => TurnoutEntity, { indexed: false })
  turnoutId!: string;

  @RefColumn(null)
  taskId!: string;

  @Field(() => Int, { description: 'Raised by every change.' })
  @VersionColumn()
  version!: number;

  /** The skill that the seat asks for, or null for a hand. */
  @RefColumn(null, { nullable: true, indexed: false })
  skillId!: string | null;

  @Field(() => Int, { description: 'Least level in the skill, 1 to 4; 0 for a hand.' })
  @IntegerColumn()
  level!: number;

  @RefColumn(null, { nullable: true, indexed: false })
  volunteerId!: string | null;

  /** What its holder does on an all-hands day, such as “line handler”; null for every other place. */
  @Field(() => String, {
    nullable: true,
    description: 'What its holder does on an all-hands day; else null.',
  })
  @TextColumn({ nullable: true })
  role!: string | null;

  /** The card that the role asks for, besides those of the work; null for none. */
  @RefColumn(null, { nullable: true, indexed: false })
  cardKindId!: string | null;

  /** Beside whom a second hand learns, over and above the crew; null for every other place. */
  @RefColumn(null, { nullable: true, indexed: false })
  teacherId!: string | null;

  @Field(() => PlaceStateEnum, { description: 'How it stands.' })
  @OneOfColumn(placeStates)
  state!: PlaceState;

  @Field(() => DateTime, { description: 'From when, inside the turnout.' })
  @InstantColumn()
  startsAt!: number;

  @Field(() => DateTime, { description: 'Until when, inside the turnout.' })
  @InstantColumn()
  endsAt!: number;

  /** Why this person, in words. Said to the person and to those who run the yard, not to others. */
  @TextColumn({ nullable: true })
  why!: string | null;

  /** The plan it was posted from, or null when it was read from a document. */
  @RefColumn(null, { nullable: true, indexed: false })
  planId!: string | null;

  @InstantColumn({ nullable: true })
  takenAt!: number | null;

  @InstantColumn({ nullable: true })
  leftAt!: number | null;

  @TextColumn({ nullable: true })
  leftReason!: string | null;
}

/** A place that nobody has touched: open, for a hand, but for what is said of it. */
export function newPlace(
  rest: Partial<PlaceEntity> &
    Pick<PlaceEntity, 'organisationId' | 'turnoutId' | 'taskId' | 'startsAt' | 'endsAt'>,
): PlaceEntity {
  return {
    id: newId('place'),
    version: 1,
    skillId: null,
    level: 0,
    role: null,
    cardKindId: null,
    volunteerId: null,
    state: 'posted',
    why: null,
    planId: null,
    takenAt: null,
    leftAt: null,
    leftReason: null,
    teacherId: null,
    ...rest,
  };
}
