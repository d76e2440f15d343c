import { Organisation } from '@ribband/access';
import type { LayUp } from '@ribband/hull';
import {
  DayColumn,
  IdColumn,
  InstantColumn,
  JsonColumn,
  OneOfColumn,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Entity } from 'typeorm';

const layUpStates = ['proposed', 'kept'] as const;

/** Which piece is sawn from which flitch: proposed by the program, kept by the shipwright. One of each at most. */
@Entity('lay_up')
export class LayUpEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @OneOfColumn(layUpStates)
  state!: (typeof layUpStates)[number];

  /** Keys of flitches are their ids. */
  @JsonColumn()
  result!: LayUp;

  @InstantColumn()
  madeAt!: number;

  /** By the yard's clock: what is wanting is waited for from this day. */
  @DayColumn()
  madeOn!: string;

  @TextColumn({ nullable: true })
  keptBy!: string | null;
}
