import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  InstantColumn,
  LocalDate,
  RealColumn,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Field, Float, ID, ObjectType } from '@nestjs/graphql';
import { Entity } from 'typeorm';
import { FlitchEntity } from './flitch.entity.js';

@ObjectType({
  description: 'How wet a flitch was. A wrong one is withdrawn with a reason and stays on record.',
})
@Entity('moisture_reading')
export class MoistureReading {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => FlitchEntity, { onDelete: 'CASCADE' })
  flitchId!: string;

  @Field(() => LocalDate, { name: 'on', description: 'The day.' })
  @DayColumn()
  readOn!: string;

  @Field(() => Float, { description: 'Percent of dry weight.' })
  @RealColumn()
  percent!: number;

  @Field(() => String, { description: 'Who entered it.' })
  @TextColumn()
  enteredBy!: string;

  @InstantColumn()
  enteredAt!: number;

  @Field(() => String, { nullable: true, description: 'Why it does not count.' })
  @TextColumn({ nullable: true })
  withdrawnReason!: string | null;
}
