import { IdColumn, IntegerColumn, JsonColumn, RefColumn } from '@ribband/platform';
import { Entity } from 'typeorm';
import type { RatherNot } from './rather-not.js';

/**
 * What somebody asks for themselves. It is between them and the coordinator: what they would rather not do never leaves
 * the records, not with the yard document either; what they would like to learn goes out to the coordinator alone.
 */
@Entity('person_wish')
export class PersonWish {
  /** No foreign key: the wish follows its person through a new reading of the yard document. */
  @IdColumn()
  volunteerId!: string;

  @RefColumn(null)
  organisationId!: string;

  /** Most turnouts in a calendar month; null for no cap. */
  @IntegerColumn({ nullable: true })
  turnoutsAMonth!: number | null;

  @JsonColumn()
  ratherNots!: RatherNot[];

  /** Document keys of skills, which outlive a new reading of the yard document; null for none. */
  @JsonColumn({ nullable: true })
  wouldLearn!: string[] | null;
}
