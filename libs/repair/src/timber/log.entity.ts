import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  LocalDate,
  RealColumn,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';
import { TimberSource } from './source.entity.js';

/** A log. Diameter and length are kept as log rules read them: inches and feet. */
@ObjectType({ description: 'A log, before or after it was sawn into flitches.' })
@Entity('timber_log')
@Unique(['organisationId', 'mark'])
export class TimberLog {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @Field(() => Int, { description: 'Rises with each edit.' })
  @VersionColumn()
  version!: number;

  @Field(() => String, { description: 'What is painted on its end.' })
  @TextColumn()
  mark!: string;

  @Field(() => String, { description: 'What wood it is.' })
  @TextColumn()
  species!: string;

  @RefColumn(() => TimberSource, { nullable: true, onDelete: 'SET NULL' })
  sourceId!: string | null;

  @Field(() => Float, { description: 'At the small end, inside the bark, in inches.' })
  @RealColumn()
  diameterInches!: number;

  @Field(() => Float, { description: 'In feet.' })
  @RealColumn()
  lengthFeet!: number;

  @Field(() => LocalDate, { nullable: true, description: 'When it came; null while it is still to come.' })
  @DayColumn({ nullable: true })
  cameOn!: string | null;

  @Field(() => String, { nullable: true, description: 'A later job that it is kept for.' })
  @TextColumn({ nullable: true })
  reservedFor!: string | null;

  @Field(() => String, { nullable: true, description: 'What to know about it.' })
  @TextColumn({ nullable: true })
  note!: string | null;
}
