import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, instant, integer, ref, text } = column;
const maybe = { nullable: true } as const;

/** The watch over hot work at each turnout, as it was written each time. */
export class FireWatch1764421000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'fire_watch',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
        ref('turnoutId', 'turnout', { onDelete: 'CASCADE', indexed: false }),
        ref('taskId', null, { indexed: false }),
        integer('version'),
        ref('watchId', null, { nullable: true, indexed: false }),
        text('notLit', maybe),
        instant('lastSparkAt', maybe),
        text('lookBy', maybe),
        instant('lookDueAt', maybe),
        instant('lookedAt', maybe),
        text('found', maybe),
        text('reason', maybe),
        text('writtenBy'),
        instant('writtenAt'),
      ],
      { unique: [['turnoutId', 'taskId', 'version']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
