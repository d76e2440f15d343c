import { Organisation } from '@ribband/access';
import type { TapedFlitch } from '@ribband/hull';
import {
  DayColumn,
  IdColumn,
  JsonColumn,
  LocalDate,
  OneOfColumn,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';
import { TimberLog } from './log.entity.js';
import { TimberSource } from './source.entity.js';

export const stockUses = ['frames', 'planking'] as const;
export type StockUse = (typeof stockUses)[number];

export const StockUseEnum = { FRAMES: 'frames', PLANKING: 'planking' } as const;
registerEnumType(StockUseEnum, {
  name: 'TimberUse',
  description: 'What stock is meant for.',
  valuesMap: {
    FRAMES: { description: 'Sawn frames: they may go in greener, ends sealed and bolts tightened again.' },
    PLANKING: { description: 'Planks: they are hung dry.' },
  },
});

/** A flitch as it was taped: lengths in millimetres. */
export type Taped = Omit<TapedFlitch, 'key' | 'name'>;

@ObjectType('Flitch', { description: 'A slab with its bark edges, or a plank in the rough.' })
@Entity('timber_flitch')
@Unique(['organisationId', 'mark'])
export class FlitchEntity {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @Field(() => Int, { description: 'Rises with each edit.' })
  @VersionColumn()
  version!: number;

  @Field(() => String, { description: 'What is painted on it.' })
  @TextColumn()
  mark!: string;

  @Field(() => String, { description: 'What wood it is.' })
  @TextColumn()
  species!: string;

  @Field(() => StockUseEnum, { description: 'What it is meant for.' })
  @OneOfColumn(stockUses)
  use!: StockUse;

  @JsonColumn()
  taped!: Taped;

  @RefColumn(() => TimberLog, { nullable: true, onDelete: 'SET NULL' })
  logId!: string | null;

  @RefColumn(() => TimberSource, { nullable: true, onDelete: 'SET NULL' })
  sourceId!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'When it is promised; null when it is there.' })
  @DayColumn({ nullable: true })
  expectedOn!: string | null;

  /** The first day that it was promised for, and when it was then noted to be there. */
  @DayColumn({ nullable: true })
  promisedOn!: string | null;

  @DayColumn({ nullable: true })
  cameOn!: string | null;

  @Field(() => String, { nullable: true, description: 'Where it lies.' })
  @TextColumn({ nullable: true })
  lies!: string | null;

  @Field(() => String, { nullable: true, description: 'A later job that it is kept for: it is not laid up.' })
  @TextColumn({ nullable: true })
  reservedFor!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'When it was sawn up.' })
  @DayColumn({ nullable: true })
  usedOn!: string | null;
}
