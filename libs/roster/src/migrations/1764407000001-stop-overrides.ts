import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, instant, ref, text } = column;

/** Stops that a named authority has set aside. */
export class StopOverrides1764407000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'stop_override',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
        ref('turnoutId', 'turnout', { onDelete: 'CASCADE', indexed: false }),
        ref('taskId', null, { indexed: false }),
        ref('volunteerId', null, { indexed: false }),
        text('rule'),
        text('stopped'),
        text('reason'),
        text('grantedBy'),
        instant('grantedAt'),
        instant('withdrawnAt', { nullable: true }),
        text('withdrawnBy', { nullable: true }),
      ],
      { indexed: [['turnoutId', 'volunteerId']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
