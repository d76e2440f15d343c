import { Organisation } from '@ribband/access';
import { Skill } from '@ribband/crew';
import { IdColumn, IntegerColumn, JsonColumn, RefColumn } from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Check, Entity } from 'typeorm';
import { Task } from './task.entity.js';

/** Seats of one kind on a task: all must be filled while it runs. */
@ObjectType({ description: 'Seats on a task that ask for a skill; all are filled while it runs.' })
@Entity('seat')
@Check('"level" BETWEEN 1 AND 4')
export class Seat {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Task, { onDelete: 'CASCADE' })
  taskId!: string;

  @RefColumn(() => Skill)
  skillId!: string;

  @Field(() => Int, { description: 'Least level, 1 to 4.' })
  @IntegerColumn()
  level!: number;

  @Field(() => Int, { description: 'How many such seats.' })
  @IntegerColumn()
  count!: number;

  /** Cards that only the holder of such a seat needs. */
  @JsonColumn()
  cardKindIds!: string[];
}
