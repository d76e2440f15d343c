import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  IntegerColumn,
  JsonColumn,
  LocalDate,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity } from 'typeorm';

@ObjectType({ description: 'A trip to look for timber: its hours are hours given to the vessel.' })
@Entity('timber_trip')
export class SearchTrip {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @Field(() => LocalDate, { description: 'The day.' })
  @DayColumn()
  wentOn!: string;

  @Field(() => String, { description: 'Where they looked.' })
  @TextColumn()
  whereTo!: string;

  @Field(() => Int, { description: 'How long each was out, in minutes.' })
  @IntegerColumn()
  minutes!: number;

  /** Ids of those who went; names are looked up where they may be seen. */
  @JsonColumn()
  volunteerIds!: string[];

  @Field(() => String, { nullable: true, description: 'What was found.' })
  @TextColumn({ nullable: true })
  found!: string | null;

  @TextColumn()
  enteredBy!: string;
}
