import { Organisation } from '@ribband/access';
import { FlagColumn, IdColumn, RefColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

/**
 * Somebody had a place at a turnout, or stood by, and was not there when it was called. Whoever said so, whatever the reason, has no
 * odds counted against them.
 */
@Entity('absence')
@Unique(['turnoutId', 'volunteerId'])
export class AbsenceEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => TurnoutEntity, { onDelete: 'CASCADE', indexed: false })
  turnoutId!: string;

  @RefColumn(null)
  volunteerId!: string;

  /** Whether they had said that they would not come: ill, rang up, sent word. */
  @FlagColumn()
  saidSo!: boolean;
}
