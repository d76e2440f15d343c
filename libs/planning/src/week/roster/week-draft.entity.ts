import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  InstantColumn,
  JsonColumn,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import type { PlacedHand } from './placed.js';

/** A week's roster as the coordinator has put it together so far; gone when the week is posted. */
@Entity('week_draft')
@Unique(['organisationId', 'weekOf'])
export class WeekDraftEntity {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** Its Monday. */
  @DayColumn()
  weekOf!: string;

  @VersionColumn()
  version!: number;

  /** The plan whose places these are. */
  @RefColumn(null, { indexed: false })
  planId!: string;

  @JsonColumn()
  places!: PlacedHand[];

  @InstantColumn()
  keptAt!: number;

  @TextColumn()
  keptBy!: string;
}
