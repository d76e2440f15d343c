import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, instant, integer, json, ref, text, version } = column;

/** Deeds that are asked with a key, and how the yard keeps its roster. */
export class Deeds1764100500001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'place_deed',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false }),
        text('asked'),
        instant('askedAt'),
        json('answer'),
      ],
      { indexed: [['organisationId', 'askedAt']] },
    );
    const owner = id('organisationId');
    owner.references = { table: 'organisation', onDelete: 'CASCADE' };
    await createTable(runner, 'roster_settings', [
      owner,
      version(),
      integer('lateHours'),
      integer('staleHours'),
    ]);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
