import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  LocalDate,
  LocalTime,
  Node,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';

/** A rule by which turnouts recur (RFC 5545), with the local hours of each. */
@ObjectType('TurnoutRule', { implements: () => Node, description: 'A rule by which turnouts recur.' })
@Entity('turnout_rule')
@Unique(['organisationId', 'ref'])
export class TurnoutRuleEntity {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The key by which yard documents name it. */
  @TextColumn()
  ref!: string;

  @Field(() => Int, { description: 'Raised by every edit; edits carry the one that was read.' })
  @VersionColumn()
  version!: number;

  @Field(() => String, { description: 'Which days, as a rule of RFC 5545 such as FREQ=WEEKLY;BYDAY=WE,SA.' })
  @TextColumn()
  rule!: string;

  @Field(() => LocalDate, { description: 'The first day on which it counts.' })
  @DayColumn()
  startsOn!: string;

  @Field(() => LocalDate, { nullable: true, description: 'The last day on which it counts; null: no end.' })
  @DayColumn({ nullable: true })
  untilOn!: string | null;

  @Field(() => LocalTime, { description: 'When each turnout starts.' })
  @TextColumn()
  startTime!: string;

  @Field(() => LocalTime, { description: 'When each turnout ends, the same day.' })
  @TextColumn()
  endTime!: string;
}
