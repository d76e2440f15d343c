import { FlagColumn, IdColumn, OneOfColumn, RealColumn, TextColumn, VersionColumn } from '@ribband/platform';
import { Entity } from 'typeorm';

export const unitSystems = ['imperial', 'metric'] as const;
export type UnitSystem = (typeof unitSystems)[number];

/** A yard: the people who restore a vessel together, and everything that is theirs. */
@Entity('organisation')
export class Organisation {
  @IdColumn()
  id!: string;

  @VersionColumn()
  version!: number;

  @TextColumn()
  name!: string;

  /** How the page shows lengths and weights; they are kept in millimetres and kilograms. */
  @OneOfColumn(unitSystems)
  units!: UnitSystem;

  /** The odds, 0 to 1, with which the crew of a piece of work shall turn up. */
  @RealColumn()
  crewOddsWish!: number;

  /** Whether this is the invented yard that comes with the program. */
  @FlagColumn()
  isDemo!: boolean;
}
