import { DateTime } from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';

@ObjectType({
  description: 'A picture of a piece. No face of a person, least of all of a minor, belongs in it.',
})
export class Picture {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => String, {
    description: 'Its address on this server, for those who are signed in at the yard.',
  })
  address!: string;

  @Field(() => Int, { description: 'Pixels across.' })
  width!: number;

  @Field(() => Int, { description: 'Pixels down.' })
  height!: number;

  @Field(() => String, { nullable: true, description: 'What it shows.' })
  caption!: string | null;

  @Field(() => DateTime, { description: 'When it was added.' })
  addedAt!: number;

  @Field(() => Boolean, { description: 'Whether the caller may take it down.' })
  mayRemove!: boolean;
}
