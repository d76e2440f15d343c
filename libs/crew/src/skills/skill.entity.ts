import { Organisation } from '@ribband/access';
import { IdColumn, Node, RefColumn, TextColumn } from '@ribband/platform';
import { Field, ID, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';
import { type SkillPurpose, SkillPurposeEnum } from '../purposes/purposes.js';

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

  @Field(() => SkillPurposeEnum, {
    nullable: true,
    description: 'What it is taken for; null for nothing that the gates go by.',
  })
  @TextColumn({ nullable: true })
  purpose!: SkillPurpose | null;
}
