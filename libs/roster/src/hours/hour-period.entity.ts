import { Organisation } from '@ribband/access';
import {
  DateTime,
  DayColumn,
  IdColumn,
  InstantColumn,
  LocalDate,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Field, ID, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';

/** Days that are closed: nothing that was worked on them changes any more. Never opened again. */
@ObjectType('HourPeriod', { description: 'Days of the hours book that are closed for good.' })
@Entity('hour_period')
@Unique(['organisationId', 'fromOn'])
export class HourPeriodEntity {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @Field(() => LocalDate, { name: 'from', description: 'The first day.' })
  @DayColumn()
  fromOn!: string;

  @Field(() => LocalDate, { name: 'to', description: 'The last day.' })
  @DayColumn()
  toOn!: string;

  @Field(() => String, { description: 'Who closed it.' })
  @TextColumn()
  closedBy!: string;

  @Field(() => DateTime, { description: 'When it was closed.' })
  @InstantColumn()
  closedAt!: number;
}
