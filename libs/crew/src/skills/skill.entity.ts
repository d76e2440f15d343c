import { Organisation } from '@ribband/access';
import { IdColumn, Node, RefColumn, TextColumn } from '@ribband/platform';
import { Field, ID, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';

/** One entry of the closed list of skills that an organisation's tasks may ask for. */
@ObjectType({
  implements: () => Node,
  description: 'A skill that tasks ask for, from the yard’s closed list.',
})
@Entity('skill')
@Unique(['organisationId', 'ref'])
export class Skill {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The key that yard documents use for it. */
  @TextColumn()
  ref!: string;

  @Field(() => String, { description: 'What the yard calls it, such as "sawyer".' })
  @TextColumn()
  name!: string;
}
