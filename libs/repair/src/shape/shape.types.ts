import { DateTime, JSONDocument } from '@ribband/platform';
import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';

@ObjectType({ description: 'Her measured shape.' })
export class HullShapeRecord {
  @Field(() => Int, { description: 'Raised by every change; changes carry the one that was read.' })
  version!: number;

  @Field(() => JSONDocument, {
    description:
      'A half model measured with rule and square, or offsets at full size; in millimetres, as in the yard document.',
  })
  measured!: unknown;

  @Field(() => String, { description: 'Who entered it as it stands.' })
  keptBy!: string;

  @Field(() => DateTime, { description: 'When.' })
  keptAt!: number;

  @Field(() => [String], {
    description: 'Sections that stand out from their neighbours: measure them again.',
  })
  standOut!: string[];
}

@ObjectType({ description: 'The shape as the change left it.' })
export class HullShapePayload {
  @Field(() => HullShapeRecord, { description: 'The shape.' })
  hullShape!: HullShapeRecord;
}

@ObjectType({ description: 'An angle along a pattern’s outer edge.' })
export class PatternBevel {
  @Field(() => Int, { description: 'From the heel along the edge, in millimetres.' })
  along!: number;

  @Field(() => Float, { description: 'Degrees off square: open above 0, closed below.' })
  degrees!: number;
}

@ObjectType({ description: 'A futtock’s full-size pattern, its chord along x. Lengths in millimetres.' })
export class Pattern {
  @Field(() => ID, { description: 'Key of the hull’s element.' })
  piece!: string;

  @Field(() => String, { description: 'What it is.' })
  name!: string;

  @Field(() => Int, { description: 'How thick the piece is fore and aft.' })
  sided!: number;

  @Field(() => Int, { description: 'Straight from heel to head along the outer edge.' })
  chord!: number;

  @Field(() => Int, { description: 'How far the outer edge bends off its chord.' })
  sweep!: number;

  @Field(() => String, {
    description: 'Outline at the face where the layers meet: points of an SVG polygon.',
  })
  points!: string;

  @Field(() => String, { description: 'Outer edge on the other face: points of an SVG polyline.' })
  farEdge!: string;

  @Field(() => [PatternBevel], { description: 'Bevels from heel to head; at most 200.' })
  bevels!: PatternBevel[];
}

@ObjectType({ description: 'The pattern that was asked for.' })
export class PatternPayload {
  @Field(() => Pattern, { description: 'The pattern.' })
  pattern!: Pattern;
}
