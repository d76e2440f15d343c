import { Organisation } from '@ribband/access';
import {
  DateTime,
  DayColumn,
  IdColumn,
  InstantColumn,
  LocalDate,
  LocalTime,
  Node,
  OneOfColumn,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Entity, Index, Unique } from 'typeorm';
import { TurnoutRuleEntity } from './turnout-rule.entity.js';

export const turnoutKinds = ['watch', 'all-hands'] as const;
export type TurnoutKind = (typeof turnoutKinds)[number];

const TurnoutKindEnum = { WATCH: 'watch', ALL_HANDS: 'all-hands' } as const;
registerEnumType(TurnoutKindEnum, {
  name: 'TurnoutKind',
  description: 'What a turnout is that is not one of the usual ones.',
  valuesMap: {
    WATCH: { description: 'A watch over her afloat, at any hour of the day or night.' },
    ALL_HANDS: { description: 'A day that takes all hands, with places by role.' },
  },
});

/** One dated working session at the yard. */
@ObjectType('Turnout', { implements: () => Node, description: 'One dated working session at the yard.' })
@Entity('turnout')
@Unique(['organisationId', 'heldOn', 'startTime'])
@Index(['organisationId', 'startsAt'])
export class TurnoutEntity {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The rule that made it, or null for one entered by hand. */
  @RefColumn(() => TurnoutRuleEntity, { nullable: true, onDelete: 'SET NULL' })
  ruleId!: string | null;

  @Field(() => Int, { description: 'Raised by every edit; edits carry the one that was read.' })
  @VersionColumn()
  version!: number;

  /**
   * Null for a usual turnout, to which the plan gives its work. A watch and an all-hands day have places of their own:
   * they may go on while a turnout does, and a watch may end on the next day.
   */
  @Field(() => TurnoutKindEnum, { nullable: true, description: 'Null for a usual turnout.' })
  @OneOfColumn(turnoutKinds, { nullable: true })
  kind!: TurnoutKind | null;

  @Field(() => LocalDate, { name: 'on', description: 'Its day at the yard.' })
  @DayColumn()
  heldOn!: string;

  @Field(() => LocalTime, { description: 'When it starts, on the yard’s clocks.' })
  @TextColumn()
  startTime!: string;

  @Field(() => LocalTime, { description: 'When it ends, on the yard’s clocks.' })
  @TextColumn()
  endTime!: string;

  @Field(() => DateTime, { description: 'When it starts.' })
  @InstantColumn()
  startsAt!: number;

  @Field(() => DateTime, { description: 'When it ends.' })
  @InstantColumn()
  endsAt!: number;

  @Field(() => String, { nullable: true, description: 'Anything to know about it.' })
  @TextColumn({ nullable: true })
  note!: string | null;

  @InstantColumn({ nullable: true })
  cancelledAt!: number | null;

  @Field(() => String, { nullable: true, description: 'Why it was called off; null when it was not.' })
  @TextColumn({ nullable: true })
  cancelReason!: string | null;
}
