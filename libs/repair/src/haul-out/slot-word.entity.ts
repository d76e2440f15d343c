import { Organisation } from '@ribband/access';
import { DayColumn, IdColumn, LocalDate, OneOfColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Field, ID, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Entity } from 'typeorm';
import { LiftSlot } from './lift-slot.entity.js';

export const slotWordKinds = ['confirmed', 'released', 'taken back'] as const;
export type SlotWordKind = (typeof slotWordKinds)[number];

export const SlotWordKindEnum = {
  CONFIRMED: 'confirmed',
  RELEASED: 'released',
  TAKEN_BACK: 'taken back',
} as const;
registerEnumType(SlotWordKindEnum, {
  name: 'SlotWordKind',
  description: 'What the yard was told about a lift slot.',
  valuesMap: {
    CONFIRMED: { description: 'We take it.' },
    RELEASED: { description: 'We give it back: she is not lifted in it, and the plan aims at the next.' },
    TAKEN_BACK: { description: 'What was said before counts no more: it is to be decided again.' },
  },
});

/** What the yard was told about a slot. Words are only ever added: the newest holds. */
@ObjectType({ description: 'What the yard that lifts her was told about a slot, and what it said.' })
@Entity('slot_word')
export class SlotWord {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => LiftSlot, { onDelete: 'CASCADE' })
  slotId!: string;

  @Field(() => SlotWordKindEnum, { description: 'What was said.' })
  @OneOfColumn(slotWordKinds)
  word!: SlotWordKind;

  @Field(() => LocalDate, { description: 'When.' })
  @DayColumn()
  givenOn!: string;

  @Field(() => String, { description: 'Who told the yard.' })
  @TextColumn()
  givenBy!: string;

  @Field(() => String, {
    nullable: true,
    description: 'The yard’s answer, with its reference where it has one.',
  })
  @TextColumn({ nullable: true })
  yardSays!: string | null;

  @Field(() => String, { nullable: true, description: 'Why, or anything to know.' })
  @TextColumn({ nullable: true })
  note!: string | null;
}
