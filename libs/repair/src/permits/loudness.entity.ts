import { Organisation } from '@ribband/access';
import { DayColumn, IdColumn, IntegerColumn, LocalDate, RefColumn, TextColumn } from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';
import { Tool } from '../tools/tool.entity.js';

/** How loud it is where one stands at a tool; without a tool, loud work by hand. */
@ObjectType({ description: 'How loud it is where one stands.' })
@Entity('loudness')
@Unique(['organisationId', 'toolId'])
export class Loudness {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @Field(() => ID, { nullable: true, description: 'At which tool; null: loud work by hand.' })
  @RefColumn(() => Tool, { onDelete: 'CASCADE', nullable: true })
  toolId!: string | null;

  @Field(() => Int, { description: 'dBA.' })
  @IntegerColumn()
  dba!: number;

  @Field(() => LocalDate, { description: 'When.' })
  @DayColumn()
  measuredOn!: string;

  @Field(() => String, { description: 'Who measured it, or wrote down where it comes from.' })
  @TextColumn()
  by!: string;
}
