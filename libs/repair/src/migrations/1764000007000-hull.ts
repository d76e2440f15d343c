import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, ref, text, instant, json, version } = column;

/** How the hull of each haul-out is built. */
export class Hull1764000007000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'hull',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
        ref('haulOutId', 'haul_out', { onDelete: 'CASCADE', indexed: false }),
        version(),
        json('outline'),
        text('changedBy'),
        instant('changedAt'),
      ],
      { unique: [['haulOutId']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
