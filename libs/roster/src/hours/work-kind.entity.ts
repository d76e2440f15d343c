import { Organisation } from '@ribband/access';
import { IdColumn, RefColumn, TextColumn, VersionColumn } from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';

/** A kind of work as a funder pays for it: sawing is worth more an hour than sweeping. */
@ObjectType('WorkKind', { description: 'A kind of work as a funder values it.' })
@Entity('work_kind')
@Unique(['organisationId', 'name'])
export class WorkKindEntity {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @Field(() => Int, { description: 'Raised by every edit.' })
  @VersionColumn()
  version!: number;

  @Field(() => String, { description: 'What it is called.' })
  @TextColumn()
  name!: string;

  /** Hours on a seat that asks for this skill are of this kind; null for those that are of it only when said so. */
  @Field(() => ID, {
    nullable: true,
    description: 'Hours on a seat that asks for this skill are of this kind.',
  })
  @RefColumn(null, { nullable: true, indexed: false })
  skillId!: string | null;
}

/** What hours are of when nothing else is said. */
export const generalWork = 'General work';
