import { Entity } from 'typeorm';
import { IdColumn, InstantColumn } from '../database/columns.js';

/** A yard whose clock does not run with the real one. */
@Entity('yard_clock')
export class YardClockRow {
  @IdColumn()
  organisationId!: string;

  @InstantColumn()
  standsAt!: number;
}
