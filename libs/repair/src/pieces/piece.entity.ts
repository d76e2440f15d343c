import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  InstantColumn,
  IntegerColumn,
  LocalDate,
  Node,
  OneOfColumn,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';
import {
  PieceFaceEnum,
  pieceFaces,
  PieceFateEnum,
  pieceFates,
  PieceHeadingEnum,
  pieceHeadings,
  type PieceFace,
  type PieceFate,
  type PieceHeading,
} from './piece-words.js';

/** A part that came off, or will, and hangs on its tag. */
@ObjectType({ implements: () => Node, description: 'A part that comes off and carries a tag of its own.' })
@Entity('piece')
@Unique(['organisationId', 'tagNumber'])
export class Piece {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** What the code on the tag stands for; never given out twice. */
  @IntegerColumn()
  tagNumber!: number;

  @Field(() => Int, { description: 'Raised by every edit; edits carry the one that was read.' })
  @VersionColumn()
  version!: number;

  @Field(() => String, { description: 'What it is, as the yard calls it.' })
  @TextColumn()
  name!: string;

  /** Key of the hull's element that it is, or is a part of; null where the hull's model has none. */
  @TextColumn({ nullable: true })
  elementKey!: string | null;

  @Field(() => String, { description: 'Where on the hull it belongs, in words.' })
  @TextColumn()
  place!: string;

  @Field(() => PieceFaceEnum, { nullable: true, description: 'The face that carries the tag.' })
  @OneOfColumn(pieceFaces, { nullable: true })
  face!: PieceFace | null;

  @Field(() => PieceHeadingEnum, {
    nullable: true,
    description: 'Where the arrow on the tag points when it lies in the hull.',
  })
  @OneOfColumn(pieceHeadings, { nullable: true })
  heading!: PieceHeading | null;

  @Field(() => PieceFateEnum, { description: 'What becomes of it.' })
  @OneOfColumn(pieceFates)
  fate!: PieceFate;

  @Field(() => String, { nullable: true, description: 'Where it is kept now.' })
  @TextColumn({ nullable: true })
  keptAt!: string | null;

  @Field(() => LocalDate, {
    nullable: true,
    description: 'The day on which it came off; null while it is in place.',
  })
  @DayColumn({ nullable: true })
  cameOffOn!: string | null;

  @InstantColumn()
  taggedAt!: number;
}
