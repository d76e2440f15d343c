import { DateTime, LocalDate } from '@ribband/platform';
import { Field, ID, InputType, ObjectType, PartialType, registerEnumType } from '@nestjs/graphql';
import {
  PieceFaceEnum,
  PieceFateEnum,
  PieceHeadingEnum,
  type PieceFace,
  type PieceFate,
  type PieceHeading,
} from './piece-words.js';
import { Piece } from './piece.entity.js';

@ObjectType({ description: 'A line in the story of a piece.' })
export class StoryLineType {
  @Field(() => DateTime, { description: 'When, by the yard’s clock.' })
  at!: number;

  @Field(() => String, { description: 'What happened.' })
  words!: string;

  @Field(() => String, {
    nullable: true,
    description: 'Who said so; null to volunteers, but for the shipwright’s word.',
  })
  by!: string | null;
}

export const readings = ['right', 'mended', 'not in use', 'unreadable'] as const;
const CodeReadingEnum = {
  RIGHT: 'right',
  MENDED: 'mended',
  NOT_IN_USE: 'not in use',
  UNREADABLE: 'unreadable',
} as const;
registerEnumType(CodeReadingEnum, {
  name: 'CodeReading',
  description: 'How a code that was scanned or keyed reads.',
  valuesMap: {
    RIGHT: { description: 'As it stands on a tag.' },
    MENDED: { description: 'One sign was wrong; ask whether the piece found is the one meant.' },
    NOT_IN_USE: { description: 'It could be a code, but no tag of this yard carries it.' },
    UNREADABLE: { description: 'More than one sign is wrong, or it is no code at all.' },
  },
});

@ObjectType({ description: 'What a code leads to.' })
export class PieceFinding {
  @Field(() => CodeReadingEnum, { description: 'How the code reads.' })
  reading!: (typeof readings)[number];

  @Field(() => String, { description: 'The same in words.' })
  words!: string;

  @Field(() => Piece, { nullable: true, description: 'The piece; null where none was found.' })
  piece!: Piece | null;

  @Field(() => [Piece], { description: 'Where none was found: pieces whose codes look like it; at most 5.' })
  likely!: Piece[];
}

@InputType({ description: 'A piece.' })
export class PieceInput {
  @Field(() => String, { description: 'What it is, as the yard calls it.' })
  name!: string;

  @Field(() => String, { description: 'Where on the hull it belongs, in words.' })
  place!: string;

  @Field(() => String, {
    nullable: true,
    description: 'Key of the hull’s element that it is or is a part of, such as strake-9-plank-1-starboard.',
  })
  elementKey?: string | null;

  @Field(() => PieceFaceEnum, { nullable: true, description: 'The face that carries the tag.' })
  face?: PieceFace | null;

  @Field(() => PieceHeadingEnum, { nullable: true, description: 'Where the arrow on the tag points.' })
  heading?: PieceHeading | null;

  @Field(() => PieceFateEnum, { nullable: true, description: 'What becomes of it: the shipwright says.' })
  fate?: PieceFate | null;

  @Field(() => String, { nullable: true, description: 'Where it is kept now.' })
  keptAt?: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'The day on which it came off.' })
  cameOffOn?: string | null;
}

@InputType({ description: 'What changes in a piece; what is left out stays, null takes it away.' })
export class EditPieceInput extends PartialType(PieceInput) {}

@ObjectType({ description: 'The piece as the change left it.' })
export class PiecePayload {
  @Field(() => Piece, { description: 'The piece.' })
  piece!: Piece;
}

@ObjectType({ description: 'Tags were written.' })
export class PiecesPayload {
  @Field(() => [ID], { description: 'Ids of the new pieces; at most 5000.' })
  pieceIds!: string[];
}
