import { Organisation } from '@ribband/access';
import {
  DateTime,
  DayColumn,
  IdColumn,
  InstantColumn,
  IntegerColumn,
  LocalDate,
  LocalTime,
  Node,
  OneOfColumn,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';
import { HaulOut } from './haul-out.entity.js';

export const liftSlotKinds = ['gate', 'fallback', 'later'] as const;
export type LiftSlotKind = (typeof liftSlotKinds)[number];

export const LiftSlotKindEnum = { GATE: 'gate', FALLBACK: 'fallback', LATER: 'later' } as const;
registerEnumType(LiftSlotKindEnum, {
  name: 'LiftSlotKind',
  description: 'What a lift slot is to the project.',
  valuesMap: {
    GATE: { description: 'The one to be made.' },
    FALLBACK: { description: 'The one that is booked in case the gate is missed.' },
    LATER: { description: 'A further one.' },
  },
});

/** A tide and a lift together: when the yard can put her back into the water. */
@ObjectType({ implements: () => Node, description: 'When the yard can lift her back into the water.' })
@Entity('lift_slot')
@Unique(['haulOutId', 'ref'])
export class LiftSlot {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => HaulOut, { onDelete: 'CASCADE', indexed: false })
  haulOutId!: string;

  /** The key that yard documents use. */
  @TextColumn()
  ref!: string;

  @Field(() => LiftSlotKindEnum, { description: 'What it was booked as.' })
  @OneOfColumn(liftSlotKinds)
  kind!: LiftSlotKind;

  @Field(() => LocalDate, { name: 'on', description: 'Its local day.' })
  @DayColumn()
  liftsOn!: string;

  @Field(() => LocalTime, { description: 'Local time at which it opens.' })
  @TextColumn()
  startTime!: string;

  @Field(() => LocalTime, { description: 'Local time at which it closes.' })
  @TextColumn()
  endTime!: string;

  @Field(() => DateTime, { description: 'When it opens.' })
  @InstantColumn()
  startsAt!: number;

  @Field(() => DateTime, { description: 'When it closes.' })
  @InstantColumn()
  endsAt!: number;

  @Field(() => LocalDate, { nullable: true, description: 'Last day on which it can be confirmed or let go.' })
  @DayColumn({ nullable: true })
  confirmBy!: string | null;

  @Field(() => Int, { description: 'What taking it costs beyond the gate, in cents.' })
  @IntegerColumn()
  extraCostCents!: number;

  @Field(() => String, { nullable: true, description: 'Anything to know about it.' })
  @TextColumn({ nullable: true })
  note!: string | null;
}
