import { Entity } from 'typeorm';
import { IdColumn, IntegerColumn } from '../database/columns.js';

/** How often the records that a yard's plan depends on have changed. */
@Entity('revision')
export class Revision {
  @IdColumn()
  organisationId!: string;

  @IntegerColumn()
  number!: number;
}
