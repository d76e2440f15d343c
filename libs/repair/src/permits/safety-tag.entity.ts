import { Organisation } from '@ribband/access';
import { type TagKind, tagKinds } from '@ribband/crew';
import { DayColumn, IdColumn, LocalDate, OneOfColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Field, ID, ObjectType } from '@nestjs/graphql';
import { Entity } from 'typeorm';
import { TagKindEnum } from './permit-words.js';

/** One inspection of staging or lifting gear: a new inspection is a new tag. */
@ObjectType({ description: 'One inspection of staging or lifting gear, by a named person.' })
@Entity('safety_tag')
export class SafetyTag {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @Field(() => TagKindEnum, { description: 'What carries it.' })
  @OneOfColumn(tagKinds)
  kind!: TagKind;

  @Field(() => String, { description: 'Which staging or gear, and where.' })
  @TextColumn()
  name!: string;

  @Field(() => LocalDate, { description: 'When it was inspected.' })
  @DayColumn()
  inspectedOn!: string;

  @Field(() => String, { description: 'By whom.' })
  @TextColumn()
  inspectedBy!: string;

  @Field(() => LocalDate, { description: 'Last day on which it counts.' })
  @DayColumn()
  expiresOn!: string;

  @Field(() => String, { nullable: true, description: 'Who took it out of use before its time.' })
  @TextColumn({ nullable: true })
  withdrawnBy!: string | null;
}
