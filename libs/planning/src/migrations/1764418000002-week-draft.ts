import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { day, id, instant, integer, json, ref, text } = column;

/** Weeks as they are being put together. */
export class WeekDraft1764418000002 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'week_draft',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false }),
        day('weekOf'),
        integer('version'),
        text('planId'),
        json('places'),
        instant('keptAt'),
        text('keptBy'),
      ],
      { unique: [['organisationId', 'weekOf']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
