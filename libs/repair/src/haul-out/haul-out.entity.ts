import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  LocalDate,
  Node,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity } from 'typeorm';
import { Vessel } from './vessel.entity.js';

/** One stay ashore, from the day she is hauled out to the lift that takes her back. The yard's time zone is kept here. */
@ObjectType({
  implements: () => Node,
  description: 'One stay ashore: hauled out on a day, back afloat on one of the lift slots.',
})
@Entity('haul_out')
export class HaulOut {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Vessel)
  vesselId!: string;

  @Field(() => Int, { description: 'Raised by every edit.' })
  @VersionColumn()
  version!: number;

  @Field(() => LocalDate, { description: 'The day on which she leaves the water.' })
  @DayColumn()
  hauledOutOn!: string;

  @Field(() => String, { description: 'Time zone of the yard, from the IANA list.' })
  @TextColumn()
  timeZone!: string;
}
