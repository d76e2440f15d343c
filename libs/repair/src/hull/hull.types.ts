import { DateTime, JSONDocument } from '@ribband/platform';
import { Field, Int, ObjectType } from '@nestjs/graphql';

@ObjectType({ description: 'How the hull is built: her outline by counts and exceptions.' })
export class HullOutlineRecord {
  @Field(() => Int, { description: 'Raised by every change; changes carry the one that was read.' })
  version!: number;

  @Field(() => JSONDocument, {
    description:
      'Frames, strakes, ceiling and members by counts and patterns, and what differs from them: sizes in millimetres, heights in strakes from the rabbet, as in the yard document.',
  })
  outline!: unknown;

  @Field(() => String, { description: 'Who entered it as it stands.' })
  changedBy!: string;

  @Field(() => DateTime, { description: 'When.' })
  changedAt!: number;
}

@ObjectType({ description: 'The outline as the change left it.' })
export class HullOutlinePayload {
  @Field(() => HullOutlineRecord, { description: 'The outline.' })
  hullOutline!: HullOutlineRecord;
}
