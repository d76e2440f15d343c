import { Organisation } from '@ribband/access';
import { type PermitKind, permitKinds } from '@ribband/crew';
import {
  DateTime,
  IdColumn,
  InstantColumn,
  OneOfColumn,
  RealColumn,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Field, Float, ID, ObjectType } from '@nestjs/graphql';
import { Entity } from 'typeorm';
import { Task } from '../tasks/task.entity.js';
import { PermitKindEnum } from './permit-words.js';

/** A named person's word that something may be done until a moment; it is closed, never changed. */
@ObjectType({
  description:
    'A competent person’s written word that work of a kind may be done until a moment. It does not say that the work is harmless.',
})
@Entity('permit')
export class Permit {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @Field(() => PermitKindEnum, { description: 'For what.' })
  @OneOfColumn(permitKinds)
  kind!: PermitKind;

  @Field(() => ID, { nullable: true, description: 'The one task that it is for; null: all of its kind.' })
  @RefColumn(() => Task, { onDelete: 'CASCADE', nullable: true })
  taskId!: string | null;

  @Field(() => String, { description: 'Who looked.' })
  @TextColumn()
  by!: string;

  @Field(() => DateTime, { description: 'From when.' })
  @InstantColumn()
  opensAt!: number;

  @Field(() => DateTime, {
    description: 'Until when; for closed spaces and hot work the end of the turnout.',
  })
  @InstantColumn()
  expiresAt!: number;

  @Field(() => Float, { nullable: true, description: 'Oxygen, per cent, for closed spaces.' })
  @RealColumn({ nullable: true })
  oxygenPercent!: number | null;

  @Field(() => Float, { nullable: true, description: 'Flammable gas, per cent of its lower limit.' })
  @RealColumn({ nullable: true })
  flammablePercent!: number | null;

  @Field(() => String, { nullable: true, description: 'Toxic reading, what was seen, where.' })
  @TextColumn({ nullable: true })
  note!: string | null;

  @Field(() => DateTime, { nullable: true, description: 'When it was closed before its time.' })
  @InstantColumn({ nullable: true })
  closedAt!: number | null;

  @Field(() => String, { nullable: true, description: 'Who closed it.' })
  @TextColumn({ nullable: true })
  closedBy!: string | null;
}
