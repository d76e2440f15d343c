import { Organisation } from '@ribband/access';
import { DayColumn, IdColumn, LocalDate, RefColumn, TextColumn } from '@ribband/platform';
import { Field, ID, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';

/** A day on which the yard is closed, whatever the rules say. */
@ObjectType('ClosedDay', { description: 'A day on which the yard is closed, whatever the rules say.' })
@Entity('closed_day')
@Unique(['organisationId', 'closedOn'])
export class ClosedDayEntity {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @Field(() => LocalDate, { name: 'on', description: 'The day.' })
  @DayColumn()
  closedOn!: string;

  @Field(() => String, { nullable: true, description: 'Why.' })
  @TextColumn({ nullable: true })
  reason!: string | null;
}
