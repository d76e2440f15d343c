import { Organisation } from '@ribband/access';
import {
  DayColumn,
  FlagColumn,
  IdColumn,
  IntegerColumn,
  JsonColumn,
  LocalDate,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';
import { HazardCodeEnum } from '../hazards/hazard.type.js';

/** A day's weather as somebody wrote it down. In °F and miles an hour: the rules that read it are written in them. */
@ObjectType({ description: 'A day’s weather as somebody wrote it down.' })
@Entity('day_weather')
@Unique(['organisationId', 'heldOn'])
export class DayWeatherEntity {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @Field(() => LocalDate, { name: 'on', description: 'Which day.' })
  @DayColumn()
  heldOn!: string;

  @Field(() => Int, { nullable: true, description: 'Highest, °F.' })
  @IntegerColumn({ nullable: true })
  highFahrenheit!: number | null;

  @Field(() => Int, { nullable: true, description: 'Lowest while people work, °F.' })
  @IntegerColumn({ nullable: true })
  lowFahrenheit!: number | null;

  @Field(() => Int, { nullable: true, description: 'Wind, miles an hour.' })
  @IntegerColumn({ nullable: true })
  windMilesAnHour!: number | null;

  @Field(() => Int, { nullable: true, description: 'Air quality index.' })
  @IntegerColumn({ nullable: true })
  airQualityIndex!: number | null;

  @Field(() => Boolean, { description: 'Thunder about.' })
  @FlagColumn()
  thunder!: boolean;

  @Field(() => String, { nullable: true, description: 'Why work is stopped that day; null when it is not.' })
  @TextColumn({ nullable: true })
  holdReason!: string | null;

  @Field(() => [HazardCodeEnum], { description: 'Hazards that the stop is about; none: all work.' })
  @JsonColumn()
  holdHazards!: string[];

  @Field(() => String, { description: 'Who wrote it down, and who holds the work.' })
  @TextColumn()
  writtenBy!: string;
}
