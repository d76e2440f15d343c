import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, ref } = column;

/** Tallies that came with a key. */
export class TallyKeys1764427000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(runner, 'tally_key', [
      id(),
      ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
      ref('tallyId', 'tally', { onDelete: 'CASCADE' }),
    ]);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
