import { Organisation } from '@ribband/access';
import { IdColumn, IntegerColumn, Node, OneOfColumn, RefColumn, VersionColumn } from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';
import { Task } from '../tasks/task.entity.js';
import { LagKindEnum, lagKinds, RelationEnum, relations, type LagKind, type Relation } from './link-words.js';

/** One task waits for another. */
@ObjectType({ implements: () => Node, description: 'One task waits for another.' })
@Entity('task_link')
@Unique(['beforeId', 'afterId', 'relation'])
export class Link {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @Field(() => Int, { description: 'Raised by every edit; edits carry the one that was read.' })
  @VersionColumn()
  version!: number;

  @RefColumn(() => Task, { onDelete: 'CASCADE', indexed: false })
  beforeId!: string;

  @RefColumn(() => Task, { onDelete: 'CASCADE' })
  afterId!: string;

  @Field(() => RelationEnum, { description: 'Which end waits for which.' })
  @OneOfColumn(relations)
  relation!: Relation;

  @Field(() => Int, { description: 'Minutes between the two ends; below zero they may overlap.' })
  @IntegerColumn()
  lagMinutes!: number;

  @Field(() => LagKindEnum, { description: 'Which minutes count.' })
  @OneOfColumn(lagKinds)
  lagKind!: LagKind;
}
