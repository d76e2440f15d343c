import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, JsonColumn, RefColumn, TextColumn, VersionColumn } from '@ribband/platform';
import { Entity, Unique } from 'typeorm';
import { HaulOut } from '../haul-out/haul-out.entity.js';
import type { SurveyDocument } from './survey-shape.js';

/** What the survey found and what the shipwright chose; one for each haul-out. */
@Entity('survey')
@Unique(['haulOutId'])
export class SurveyRecord {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => HaulOut, { onDelete: 'CASCADE', indexed: false })
  haulOutId!: string;

  /** Raised by every change. */
  @VersionColumn()
  version!: number;

  @JsonColumn()
  survey!: SurveyDocument;

  @TextColumn()
  changedBy!: string;

  @InstantColumn()
  changedAt!: number;
}
