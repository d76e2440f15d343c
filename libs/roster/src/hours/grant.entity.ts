import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  JsonColumn,
  LocalDate,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';

/** An award towards which volunteers' hours are counted. */
@ObjectType('Grant', { description: 'An award towards which volunteers’ hours are counted.' })
@Entity('hour_grant')
@Unique(['organisationId', 'name'])
export class GrantEntity {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @Field(() => Int, { description: 'Raised by every edit; edits carry the one that was read.' })
  @VersionColumn()
  version!: number;

  @Field(() => String, { description: 'What the yard calls it.' })
  @TextColumn()
  name!: string;

  @Field(() => String, { description: 'Who gives it.' })
  @TextColumn()
  funder!: string;

  @Field(() => String, { nullable: true, description: 'The funder’s number for it.' })
  @TextColumn({ nullable: true })
  awardNumber!: string | null;

  @Field(() => LocalDate, { name: 'from', description: 'The first day whose hours count.' })
  @DayColumn()
  fromOn!: string;

  @Field(() => LocalDate, { name: 'to', description: 'The last day whose hours count.' })
  @DayColumn()
  toOn!: string;

  @Field(() => [ID], { description: 'The kinds of work that count; none named: all of them.' })
  @JsonColumn()
  kindIds!: string[];
}
