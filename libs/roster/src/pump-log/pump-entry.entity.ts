import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, IntegerColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

/**
 * One round at the pumps, as somebody wrote it down. Rows are never changed: a correction is a row that names the one
 * in whose place it stands, and one without figures strikes that out.
 */
@Entity('pump_entry')
@Unique(['correctsId'])
export class PumpEntryEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => TurnoutEntity, { onDelete: 'CASCADE' })
  turnoutId!: string;

  /** When somebody looked, by the yard's clock. */
  @InstantColumn()
  readAt!: number;

  /** Bilge water as it was found, before pumping; null where nobody sounded it. */
  @IntegerColumn({ nullable: true })
  depthMillimetres!: number | null;

  /** Strokes pumped since the round before; null where nobody counted. */
  @IntegerColumn({ nullable: true })
  strokes!: number | null;

  /** Minutes for which a pump ran since the round before. */
  @IntegerColumn({ nullable: true })
  minutes!: number | null;

  /** Who looked and pumped. */
  @TextColumn()
  doneBy!: string;

  @TextColumn({ nullable: true })
  remark!: string | null;

  /** In whose place it stands; null for an entry of its own. */
  @RefColumn(null, { nullable: true, indexed: false })
  correctsId!: string | null;

  /** Why, where it corrects. */
  @TextColumn({ nullable: true })
  reason!: string | null;

  @TextColumn()
  writtenBy!: string;

  @InstantColumn()
  writtenAt!: number;
}

type Figures = Pick<PumpEntryEntity, 'depthMillimetres' | 'strokes' | 'minutes'>;

export const hasFigures = ({ depthMillimetres, strokes, minutes }: Figures): boolean =>
  depthMillimetres !== null || strokes !== null || minutes !== null;
