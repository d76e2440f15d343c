import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity } from 'typeorm';
import { WitnessMark } from './witness-mark.entity.js';

/** The shipwright's word that opening may go on although a mark has moved. It covers what was read until then. */
@Entity('hold_lift')
export class HoldLift {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => WitnessMark, { onDelete: 'CASCADE' })
  markId!: string;

  @TextColumn()
  by!: string;

  @TextColumn()
  reason!: string;

  @InstantColumn()
  liftedAt!: number;
}
