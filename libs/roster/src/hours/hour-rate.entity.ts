import { Organisation } from '@ribband/access';
import {
  DateTime,
  DayColumn,
  IdColumn,
  InstantColumn,
  IntegerColumn,
  LocalDate,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity } from 'typeorm';
import { GrantEntity } from './grant.entity.js';
import { WorkKindEntity } from './work-kind.entity.js';

/** What an hour is worth from a day on, and who says so. Rates are only added. */
@ObjectType('HourRate', { description: 'What an hour is worth from a day on, and who says so.' })
@Entity('hour_rate')
export class HourRateEntity {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @Field(() => ID, {
    nullable: true,
    description: 'For which kind of work; null for every kind without its own.',
  })
  @RefColumn(() => WorkKindEntity, { nullable: true, indexed: false })
  kindId!: string | null;

  @Field(() => ID, { nullable: true, description: 'For which grant; null for every grant without its own.' })
  @RefColumn(() => GrantEntity, { nullable: true, indexed: false })
  grantId!: string | null;

  @Field(() => LocalDate, { name: 'from', description: 'The first day on which it holds.' })
  @DayColumn()
  fromOn!: string;

  @Field(() => Int, { description: 'Cents for one hour.' })
  @IntegerColumn()
  centsAnHour!: number;

  @Field(() => String, { description: 'Where the figure comes from.' })
  @TextColumn()
  source!: string;

  @Field(() => String, { description: 'Who entered it.' })
  @TextColumn()
  enteredBy!: string;

  @Field(() => DateTime, { description: 'When it was entered.' })
  @InstantColumn()
  enteredAt!: number;
}
