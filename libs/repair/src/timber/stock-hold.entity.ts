import { Organisation } from '@ribband/access';
import { DayColumn, IdColumn, LocalDate, RefColumn, TextColumn } from '@ribband/platform';
import { Field, ObjectType } from '@nestjs/graphql';
import { Entity } from 'typeorm';
import { Task } from '../tasks/task.entity.js';

/** A task that waits for its timber. Settled anew with every change of the timber book. */
@ObjectType({ description: 'A task waits for its timber.' })
@Entity('stock_hold')
export class StockHold {
  @IdColumn()
  id!: string;

  @RefColumn(() => Task, { onDelete: 'CASCADE' })
  taskId!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @Field(() => LocalDate, { description: 'The first day on which the timber can be sawn.' })
  @DayColumn()
  fromOn!: string;

  @Field(() => String, { description: 'Which timber, and why then.' })
  @TextColumn()
  why!: string;
}
