import { Organisation } from '@ribband/access';
import type { HalfModel, Offsets } from '@ribband/hull';
import { IdColumn, InstantColumn, JsonColumn, RefColumn, TextColumn, VersionColumn } from '@ribband/platform';
import { Entity } from 'typeorm';
import { HaulOut } from '../haul-out/haul-out.entity.js';

/** How her shape was taken: a half model measured with rule and square, or offsets at full size. */
export type MeasuredShape = ({ by: 'half model' } & HalfModel) | ({ by: 'offsets' } & Offsets);

/** Her measured shape, one for a haul-out; patterns are computed from it. Lengths in millimetres. */
@Entity('hull_shape')
export class HullShape {
  @IdColumn()
  id!: string;

  @RefColumn(() => HaulOut, { onDelete: 'CASCADE' })
  haulOutId!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @VersionColumn()
  version!: number;

  @JsonColumn()
  measured!: MeasuredShape;

  @TextColumn()
  keptBy!: string;

  @InstantColumn()
  keptAt!: number;
}
